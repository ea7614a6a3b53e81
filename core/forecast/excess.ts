import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct, SolverSettings } from '../gaps/construct.ts';
import { openSolver } from '../gaps/many/open-solver.ts';
import { restrictCatalogue } from '../gaps/many/restrict.ts';
import { partsOf } from '../gaps/parts-of.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { SAME_INSERT_MM } from './kind.ts';

/**
 * A construct still holds while its parts cost no more than this above the best for the bone found (FOR-10): with the
 * default weights what one millimetre of wrong laxity costs. Choice of this project, grade D.
 */
export const HOLDS_WITHIN = 2;

/** Up to this much above the best a construct is as good as the best (FOR-12): a quarter of a millimetre of wrong laxity. */
export const AS_GOOD_WITHIN = 0.5;

/** With what the search for constructs is done. */
export interface SearchWith {
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings?: SolverSettings;
}

/**
 * Parts that are the same in kind as those of a construct (FOR-10), by ref: its own, inserts of its size and level
 * within 2 mm, stems of its fixation and length in every diameter, cones and sleeves of its kind in every size.
 */
export function partsInKind(construct: Construct, catalogue: Catalogue): ReadonlySet<string> {
  const p = partsOf(construct, catalogue);
  const own = [p.femur, p.tray, p.insert, p.femoralOffset, p.femoralSegment, p.tibialSegment];
  // The offset under a tray follows its canal: any will do where one does.
  const couplers = p.tibialOffset ? catalogue.offsetCouplers.filter((c) => c.bone !== 'femur') : [];
  const augments = [p.distal, p.posterior, p.blocks].flatMap((pair) => [pair.medial, pair.lateral]);
  const inserts = catalogue.inserts.filter(
    (i) =>
      i.size === p.insert.size &&
      i.level === p.insert.level &&
      Math.abs(i.labelMm - p.insert.labelMm) <= SAME_INSERT_MM,
  );
  const stems = catalogue.stems.filter((s) =>
    [p.femoralStem, p.tibialStem].some((o) => o?.fixation === s.fixation && o.lengthMm === s.lengthMm),
  );
  const ofBones = <T extends { readonly bone: string }>(parts: readonly T[], used: readonly (T | null)[]): T[] =>
    parts.filter((part) => used.some((u) => u?.bone === part.bone));
  const metaphysis = [
    ...ofBones(catalogue.cones ?? [], [p.femoralCone, p.tibialCone]),
    ...ofBones(catalogue.sleeves ?? [], [p.femoralSleeve, p.tibialSleeve]),
  ];
  const all = [...own, ...augments, ...inserts, ...stems, ...couplers, ...metaphysis];
  return new Set(all.flatMap((part) => (part ? [part.ref] : [])));
}

/**
 * How much more a construct costs than the best for a bone (FOR-10): its parts, or parts of their kind, are set anew on that
 * bone under every limit. Cost units above `bestCost`, the least of the whole catalogue; null = it does not hold: more than
 * `HOLDS_WITHIN` above, or beyond a limit.
 *
 * @param enough up to this much above the best it is not told more closely, so that the search can end sooner.
 */
export function excessOf(
  construct: Construct,
  search: SearchWith,
  enough = AS_GOOD_WITHIN,
): (state: BoneState, bestCost: number) => number | null {
  const { weights, settings } = search;
  const catalogue = restrictCatalogue(search.catalogue, partsInKind(construct, search.catalogue));
  const solver = openSolver({ catalogue, weights, ...(settings ? { settings } : {}) });
  return (state, bestCost) => {
    const least = solver.leastWithin(state, bestCost + HOLDS_WITHIN, bestCost + enough);
    return least && Math.max(0, least.cost - bestCost);
  };
}
