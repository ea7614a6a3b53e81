import type { DrawnKnee } from '../forecast/drawn-knee.ts';

/** One thing by which knees differ, as a number, and how to say it. */
interface Feature {
  readonly of: (knee: DrawnKnee) => number | null;
  /** In words, for knees above and below a bound; null = that way is not said. */
  readonly above: ((bound: number) => string) | null;
  readonly below: ((bound: number) => string) | null;
}

const yes = (words: string, is: (knee: DrawnKnee) => boolean): Feature => ({
  of: (knee) => (is(knee) ? 1 : 0),
  above: () => words,
  below: null,
});

const SIDES = ['medial', 'lateral'] as const;

/** In the order in which they are named where several tell the knees apart equally well. */
const FEATURES: readonly Feature[] = [
  ...SIDES.map(
    (side): Feature => ({
      of: ({ state }) => state.tibiaMm[side],
      above: (mm) => `${side} tibia more than ${mm} mm down`,
      below: (mm) => `${side} tibia less than ${mm} mm down`,
    }),
  ),
  ...SIDES.map(
    (side): Feature => ({
      of: ({ state }) => state.femurDistalMm[side],
      above: (mm) => `${side} distal femur more than ${mm} mm up`,
      below: (mm) => `${side} distal femur less than ${mm} mm up`,
    }),
  ),
  ...SIDES.map(
    (side): Feature => ({
      of: ({ state }) => state.femurPosteriorMm[side],
      above: (mm) => `${side} posterior femur more than ${mm} mm forward`,
      below: null,
    }),
  ),
  yes('tibia of class 3', ({ state }) => state.tibiaClass === '3'),
  yes('femur of class 3', ({ state }) => state.femurClass === '3'),
  yes('tibia of class 2B or 3', ({ state }) => state.tibiaClass === '3' || state.tibiaClass === '2B'),
  yes('femur of class 2B or 3', ({ state }) => state.femurClass === '3' || state.femurClass === '2B'),
  yes('medial collateral ligament lost', ({ state }) => state.mcl === 'absent'),
  yes('medial collateral ligament weak or lost', ({ state }) => state.mcl === 'absent' || state.mcl === 'attenuated'),
  yes('lateral collateral ligament lost', ({ state }) => state.lcl === 'absent'),
  ...SIDES.flatMap((side): Feature[] => [
    {
      of: ({ state }) => state.extensionLaxityMm[side],
      above: (mm) => `${side} side opens more than ${mm} mm in extension`,
      below: (mm) => `${side} side opens less than ${mm} mm in extension`,
    },
    {
      of: ({ state }) => state.flexionLaxityMm[side],
      above: (mm) => `${side} side opens more than ${mm} mm in flexion`,
      below: (mm) => `${side} side opens less than ${mm} mm in flexion`,
    },
  ]),
  {
    of: ({ state }) => state.femurWidthMm,
    above: (mm) => `femur wider than ${mm} mm`,
    below: (mm) => `femur narrower than ${mm} mm`,
  },
  {
    of: ({ state }) => state.tibiaWidthMm,
    above: (mm) => `tibia wider than ${mm} mm`,
    below: (mm) => `tibia narrower than ${mm} mm`,
  },
  {
    of: ({ state }) => state.anteriorToPosteriorMm,
    above: (mm) => `femur deeper than ${mm} mm from front to back`,
    below: (mm) => `femur less deep than ${mm} mm from front to back`,
  },
  {
    of: ({ state }) => state.femurCanalMm,
    above: (mm) => `femoral canal wider than ${mm} mm`,
    below: (mm) => `femoral canal narrower than ${mm} mm`,
  },
  {
    of: ({ state }) => state.tibiaCanalMm,
    above: (mm) => `tibial canal wider than ${mm} mm`,
    below: (mm) => `tibial canal narrower than ${mm} mm`,
  },
];

/** A bound must tell at least so much: share of these above it less share of the others above it (Youden 1950). */
const LEAST_TOLD = 0.5;

interface Told {
  readonly words: string;
  readonly told: number;
}

/** The best whole-millimetre bound of one feature. */
function bestBound(feature: Feature, these: readonly DrawnKnee[], others: readonly DrawnKnee[]): Told | null {
  const known = (knees: readonly DrawnKnee[]) => knees.flatMap((k) => feature.of(k) ?? []).sort((a, b) => a - b);
  const [a, b] = [known(these), known(others)];
  if (a.length < these.length || a.length === 0) return null;
  const bounds = [...new Set(a.flatMap((v) => [Math.ceil(v) - 1, Math.floor(v), Math.ceil(v), Math.floor(v) + 1]))];
  let best: Told | null = null;
  for (const bound of bounds.sort((x, y) => x - y))
    for (const way of ['above', 'below'] as const) {
      const say = feature[way];
      if (!say) continue;
      const share = (values: readonly number[]): number => {
        if (values.length === 0) return 0;
        const n = way === 'above' ? values.length - countUpTo(values, bound) : countBelow(values, bound);
        return n / values.length;
      };
      const told = share(a) - share(b);
      if (!best || told > best.told + 1e-12) best = { words: say(bound), told };
    }
  return best;
}

/** How many of the ascending values are at or below, and how many below, a bound. */
const countUpTo = (values: readonly number[], bound: number): number => firstWhere(values, (v) => v > bound);
const countBelow = (values: readonly number[], bound: number): number => firstWhere(values, (v) => v >= bound);

function firstWhere(values: readonly number[], is: (value: number) => boolean): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (is(values[middle] as number)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/**
 * The one finding that best tells some knees from others, in plain words, such as "medial tibia more than 20 mm down":
 * the bound, on whole millimetres, that most of these and fewest of the others lie beyond. Lengths are those of the
 * bone state: mm from the target lines.
 *
 * @returns empty where no single finding tells them apart.
 */
export function toldApart(these: readonly DrawnKnee[], others: readonly DrawnKnee[]): string {
  let best: Told | null = null;
  for (const feature of FEATURES) {
    const next = bestBound(feature, these, others);
    if (next && (!best || next.told > best.told + 1e-12)) best = next;
  }
  return best && best.told >= LEAST_TOLD ? best.words : '';
}
