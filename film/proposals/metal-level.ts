import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { type GreyLevels, greyLevels, greyOf } from './grey-levels.ts';
import type { Reduced } from './reduced.ts';

/** Where metal begins on a film, and why. */
export interface MetalLevel {
  /** Grey from which on a pixel counts as metal. */
  readonly from: number;
  /** Mean grey of what lies over it, and of the class below. */
  readonly metal: number;
  readonly below: number;
  readonly least: number;
  readonly most: number;
}

/** Shades of the histogram that is cut. */
const COARSE_SHADES = 128;

/**
 * Grey at which metal begins: the film's shades are cut into four classes, air, soft tissue, bone and metal, where the
 * classes differ most from one another and least within (Otsu, IEEE Trans Syst Man Cybern 1979; 9:62, for three cuts).
 * The uppermost cut is the answer. Refuses a film of one shade.
 */
export function metalLevel(film: Reduced): Outcome<MetalLevel> {
  const levels = greyLevels(film);
  if (!(levels.most > levels.least))
    return cannot({
      code: 'even-film',
      message: 'The film is of one shade of grey: no metal can be told from bone on it.',
      mend: 'Mark the component by hand.',
    });
  const counts = merged(levels);
  const sums = runningSums(counts);
  const [, b, c] = threeCuts(sums);
  const shadeOf = (i: number) => greyOf(levels, (i * (levels.counts.length - 1)) / (COARSE_SHADES - 1));
  return ok({
    from: shadeOf(c + 0.5),
    metal: shadeOf(meanOf(sums, c + 1, COARSE_SHADES)),
    below: shadeOf(meanOf(sums, b + 1, c + 1)),
    least: levels.least,
    most: levels.most,
  });
}

function merged({ counts }: GreyLevels): Float64Array {
  const out = new Float64Array(COARSE_SHADES);
  for (let i = 0; i < counts.length; i++) {
    const to = Math.round((i * (COARSE_SHADES - 1)) / (counts.length - 1));
    out[to] = (out[to] ?? 0) + (counts[i] ?? 0);
  }
  return out;
}

interface Sums {
  /** Pixels of the shades before i, and the sum of their shades. */
  readonly n: Float64Array;
  readonly s: Float64Array;
}

function runningSums(counts: Float64Array): Sums {
  const n = new Float64Array(counts.length + 1);
  const s = new Float64Array(counts.length + 1);
  for (let i = 0; i < counts.length; i++) {
    n[i + 1] = (n[i] ?? 0) + (counts[i] ?? 0);
    s[i + 1] = (s[i] ?? 0) + i * (counts[i] ?? 0);
  }
  return { n, s };
}

function meanOf({ n, s }: Sums, from: number, to: number): number {
  const count = (n[to] ?? 0) - (n[from] ?? 0);
  return count > 0 ? ((s[to] ?? 0) - (s[from] ?? 0)) / count : (from + to) / 2;
}

/** What a class adds to the spread between classes: its pixels times its mean squared. */
function worth({ n, s }: Sums, from: number, to: number): number {
  const count = (n[to] ?? 0) - (n[from] ?? 0);
  return count > 0 ? ((s[to] ?? 0) - (s[from] ?? 0)) ** 2 / count : 0;
}

/** The three last shades of the lower classes; of equal cuts the lowest. */
function threeCuts(sums: Sums): [number, number, number] {
  const top = COARSE_SHADES;
  let best = Number.NEGATIVE_INFINITY;
  let cuts: [number, number, number] = [0, 1, 2];
  for (let a = 0; a < top - 3; a++) {
    const first = worth(sums, 0, a + 1);
    for (let b = a + 1; b < top - 2; b++) {
      const two = first + worth(sums, a + 1, b + 1);
      for (let c = b + 1; c < top - 1; c++) {
        const all = two + worth(sums, b + 1, c + 1) + worth(sums, c + 1, top);
        if (all > best) [best, cuts] = [all, [a, b, c]];
      }
    }
  }
  return cuts;
}
