import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Construct, SolvedConstruct } from '@gapline/core/gaps/construct.ts';
import type { PerCompartment } from '@gapline/core/landmarks/side.ts';

/** One component to be opened: what it is in words, and its number. */
export interface ListedPart {
  readonly bone: 'Femur' | 'Tibia' | 'Insert';
  readonly name: string;
  readonly ref: string;
}

/** The components of a construct in the order in which they are built in. Without its catalogue only the numbers are known. */
export function listParts(construct: Construct, catalogue: Catalogue | null): readonly ListedPart[] {
  const named = namesIn(catalogue);
  const part = (bone: ListedPart['bone'], ref: string | null | undefined, where = ''): ListedPart[] =>
    ref ? [{ bone, ref, name: `${named.get(ref) ?? ref}${where}` }] : [];
  const pair = (bone: ListedPart['bone'], { medial, lateral }: PerCompartment<string | null>): ListedPart[] =>
    medial !== null && medial === lateral
      ? part(bone, medial, ', both sides (2)')
      : [...part(bone, medial, ', medial'), ...part(bone, lateral, ', lateral')];
  return [
    ...part('Tibia', construct.tray),
    ...pair('Tibia', construct.tibialAugments),
    ...part('Tibia', construct.tibialCone),
    ...part('Tibia', construct.tibialSleeve),
    ...part('Tibia', construct.tibialOffset, ', tibia'),
    ...part('Tibia', construct.tibialStem, ', tibia'),
    ...part('Femur', construct.femur),
    ...pair('Femur', construct.distalAugments),
    ...pair('Femur', construct.posteriorAugments),
    ...part('Femur', construct.femoralCone),
    ...part('Femur', construct.femoralSleeve),
    ...part('Femur', construct.femoralOffset, ', femur'),
    ...part('Femur', construct.femoralStem, ', femur'),
    ...part('Insert', construct.insert),
  ];
}

function namesIn(catalogue: Catalogue | null): ReadonlyMap<string, string> {
  if (!catalogue) return new Map();
  const { femurs, femoralAugments, trays, tibialAugments, inserts, stems, offsetCouplers } = catalogue;
  const { cones = [], sleeves = [], segments = [] } = catalogue;
  const usual = [femurs, femoralAugments, trays, tibialAugments, inserts, stems, offsetCouplers];
  const parts = [...usual, cones, sleeves, segments].flat();
  return new Map(parts.map(({ ref, name }) => [ref, name]));
}

/** How the next best construct differs, with the parts that only it needs. */
export function bailOut(best: SolvedConstruct, other: SolvedConstruct, catalogue: Catalogue | null): string {
  const own = new Set(listParts(best.construct, catalogue).map((p) => p.ref));
  const extra = listParts(other.construct, catalogue).filter((p) => !own.has(p.ref));
  const parts = extra.length > 0 ? ` Needs besides: ${extra.map((p) => p.ref).join(', ')}.` : '';
  return `${other.differs || 'another construct'}.${parts}`;
}
