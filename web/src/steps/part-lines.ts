import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Construct } from '@gapline/core/gaps/construct.ts';
import type { PerCompartment } from '@gapline/core/landmarks/side.ts';
import { LEVEL_WORDS, number } from '../parts/words.ts';

/** What it is, which part it is, and the part by which it is drawn. */
export type PartLine = readonly [what: string, which: string, layer: string | null];

/** The construct as a list of what to ask for, with how it seats. */
export function partLines(c: Construct, catalogue: Catalogue | null): readonly PartLine[] {
  const names = namesOf(catalogue);
  const name = (ref: string | null): string => (ref === null ? 'none' : (names.get(ref) ?? ref));
  const both = (pair: PerCompartment<string | null>): string =>
    pair.medial === null && pair.lateral === null
      ? 'none'
      : pair.medial === pair.lateral
        ? `both sides: ${name(pair.medial)}`
        : `medial: ${name(pair.medial)}; lateral: ${name(pair.lateral)}`;
  const onCoupler = (stem: string | null, coupler: string | null | undefined): string =>
    coupler ? `${name(stem)} with ${name(coupler)}` : name(stem);
  return [
    ['Constraint', LEVEL_WORDS[c.level], null],
    ['Femoral component', name(c.femur), c.femur],
    ['Distal augments', both(c.distalAugments), c.distalAugments.medial ?? c.distalAugments.lateral],
    ['Posterior augments', both(c.posteriorAugments), c.posteriorAugments.medial ?? c.posteriorAugments.lateral],
    ['Femoral stem', onCoupler(c.femoralStem, c.femoralOffset), c.femoralStem],
    ['Insert', name(c.insert), c.insert],
    ['Tray', name(c.tray), c.tray],
    ['Tibial augments', both(c.tibialAugments), c.tibialAugments.medial ?? c.tibialAugments.lateral],
    ['Tibial stem', onCoupler(c.tibialStem, c.tibialOffset), c.tibialStem],
    ['Slope', `${number(c.slopeDeg)}°`, null],
  ];
}

function namesOf(catalogue: Catalogue | null): ReadonlyMap<string, string> {
  if (!catalogue) return new Map();
  const { femurs, femoralAugments, trays, tibialAugments, inserts, stems, offsetCouplers } = catalogue;
  const parts = [femurs, femoralAugments, trays, tibialAugments, inserts, stems, offsetCouplers].flat();
  return new Map(parts.map((p) => [p.ref, p.name]));
}
