import type { Reduced } from './reduced.ts';

/** Number of shades into which a film is sorted. */
const SHADES = 512;

/** How often each shade occurs on a film, between its darkest and brightest value. */
export interface GreyLevels {
  readonly least: number;
  readonly most: number;
  readonly counts: Float64Array;
}

/** Histogram of a smaller film. An even film has least = most. */
export function greyLevels({ values }: Reduced): GreyLevels {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const v of values) {
    if (v < least) least = v;
    if (v > most) most = v;
  }
  const counts = new Float64Array(SHADES);
  const scale = most > least ? (SHADES - 1) / (most - least) : 0;
  for (const v of values) {
    const i = Math.round((v - least) * scale);
    counts[i] = (counts[i] ?? 0) + 1;
  }
  return { least, most, counts };
}

/** Grey value of a shade of the histogram. */
export const greyOf = ({ least, most }: GreyLevels, shade: number): number =>
  least + ((most - least) * shade) / (SHADES - 1);
