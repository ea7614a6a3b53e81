import type { Catalogue } from '../../catalogue/catalogue.ts';
import { CONSTRAINT_LEVELS } from '../../catalogue/catalogue.ts';
import type { PerCompartment, Side } from '../../landmarks/side.ts';
import type { Construct } from '../construct.ts';
import { isSame } from './is-same.ts';
import { pinsOfConstruct } from './pin-of-construct.ts';
import { NO_STEM, type PinId, type Pinned } from './pinned.ts';

type PairPin = 'distalAugmentsMm' | 'posteriorAugmentsMm' | 'tibialAugmentsMm';
type SteppedPin = Exclude<PinId, PairPin | 'femurProximalMm' | 'femurAnteriorMm' | 'trayMm'>;

/** How far one press moves a length, mm, and with Shift. */
export const STEP_MM = { usual: 0.5, long: 2 } as const;

const rising = (values: readonly number[]): readonly number[] =>
  [...values].sort((a, b) => a - b).filter((x, i, all) => i === 0 || !isSame(x, all[i - 1] ?? Number.NaN));

/** What one thing can be fixed at besides, smallest first: sizes of the side, thicknesses, stems by width and length. */
export function choicesByHand(
  id: SteppedPin,
  { catalogue, side }: { readonly catalogue: Catalogue; readonly side: Side },
): readonly (string | number)[] {
  const mine = (part: { readonly side: string }) => part.side === 'both' || part.side === side;
  switch (id) {
    case 'level':
      return CONSTRAINT_LEVELS;
    case 'femurSize':
      return rising(catalogue.femurs.filter(mine).map((f) => f.size));
    case 'traySize':
      return rising(catalogue.trays.map((t) => t.size));
    case 'insertMm':
      return rising(catalogue.inserts.map((i) => i.labelMm));
    case 'slopeDeg':
      return rising(catalogue.limits.slopeDeg);
    case 'femoralOffsetMm':
      return rising([0, ...catalogue.offsetCouplers.filter((c) => c.bone !== 'tibia').map((c) => c.offsetMm)]);
    case 'femoralStem':
      return stems(catalogue, 'femur');
    case 'tibialStem':
      return stems(catalogue, 'tibia');
  }
}

const stems = ({ stems: all }: Catalogue, bone: 'femur' | 'tibia'): readonly string[] => [
  NO_STEM,
  ...all
    .filter((s) => s.bone === 'both' || s.bone === bone)
    .toSorted((a, b) => a.diameterMm - b.diameterMm || a.lengthMm - b.lengthMm || (a.ref < b.ref ? -1 : 1))
    .map((s) => s.ref),
];

interface Knee {
  readonly construct: Construct;
  readonly catalogue: Catalogue;
  readonly side: Side;
}

/** The next larger (1) or smaller (-1) value of one thing, as a pin; null at the end of what the catalogue has. */
export function nextByHand(id: SteppedPin, way: 1 | -1, knee: Knee): Pinned | null {
  const choices = choicesByHand(id, knee);
  const now = pinsOfConstruct(knee.construct, knee.catalogue)[id];
  const at = choices.findIndex((c) => (typeof c === 'number' && typeof now === 'number' ? isSame(c, now) : c === now));
  const next = at < 0 ? undefined : choices[at + way];
  return next === undefined ? null : { [id]: next };
}

/** The next thicker (1) or thinner (-1) augment on one side; the other side stays as it is. Null at either end. */
export function nextAugment(
  id: PairPin,
  { side, way }: { side: keyof PerCompartment<number>; way: 1 | -1 },
  knee: Knee,
): Pinned | null {
  const now = pinsOfConstruct(knee.construct, knee.catalogue);
  const { femoralAugments, tibialAugments } = knee.catalogue;
  const face = id === 'distalAugmentsMm' ? 'distal' : 'posterior';
  const goes =
    id === 'tibialAugmentsMm'
      ? tibialAugments.filter((a) => a.traySizes.includes(now.traySize))
      : femoralAugments.filter((a) => a.face === face && a.femurSizes.includes(now.femurSize));
  const steps = rising([0, ...goes.map((a) => a.thicknessMm)]);
  const at = steps.findIndex((mm) => isSame(mm, now[id][side]));
  const next = at < 0 ? undefined : steps[at + way];
  return next === undefined ? null : { [id]: { ...now[id], [side]: next } };
}
