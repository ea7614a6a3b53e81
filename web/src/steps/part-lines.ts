import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Construct } from '@gapline/core/gaps/construct.ts';
import type { PerCompartment } from '@gapline/core/landmarks/side.ts';
import { LEVEL_WORDS, number } from '../parts/words.ts';

/** The construct as a list of what to ask for, with how it seats. */
export function partLines(c: Construct, catalogue: Catalogue | null): readonly (readonly [string, string])[] {
  const names = namesOf(catalogue);
  const name = (ref: string | null): string => (ref === null ? 'none' : (names.get(ref) ?? ref));
  const both = (pair: PerCompartment<string | null>): string =>
    pair.medial === null && pair.lateral === null
      ? 'none'
      : `medial ${name(pair.medial)}; lateral ${name(pair.lateral)}`;
  return [
    ['Constraint', LEVEL_WORDS[c.level]],
    ['Femoral component', name(c.femur)],
    ['Distal augments', both(c.distalAugments)],
    ['Posterior augments', both(c.posteriorAugments)],
    ['Femoral stem', c.femoralOffset ? `${name(c.femoralStem)} with ${name(c.femoralOffset)}` : name(c.femoralStem)],
    ['Insert', name(c.insert)],
    ['Tray', name(c.tray)],
    ['Tibial augments', both(c.tibialAugments)],
    ['Tibial stem', name(c.tibialStem)],
    ['Slope', `${number(c.slopeDeg)}°`],
  ];
}

function namesOf(catalogue: Catalogue | null): ReadonlyMap<string, string> {
  if (!catalogue) return new Map();
  const { femurs, femoralAugments, trays, tibialAugments, inserts, stems, offsetCouplers } = catalogue;
  const parts = [femurs, femoralAugments, trays, tibialAugments, inserts, stems, offsetCouplers].flat();
  return new Map(parts.map((p) => [p.ref, p.name]));
}
