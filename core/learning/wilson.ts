import { Z95 } from '../measure/quantity.ts';

/** A share with its interval, 0 to 1. */
export interface ShareInterval {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Observed share of `hits` in `n`, with the score interval of Wilson 1927 (J Am Stat Assoc 22:209), recommended for small
 * n by Brown, Cai and DasGupta 2001 (Stat Sci 16:101). Level by `z`, 95 % by default. Null for n = 0: nothing observed.
 *
 * Example: 15 of 148 give 0.1014 with 0.0624 to 0.1605 (Newcombe 1998, Stat Med 17:857, table I, method 3).
 */
export function wilsonInterval(hits: number, n: number, z: number = Z95): ShareInterval | null {
  if (!(n > 0) || hits < 0 || hits > n) return null;
  const share = hits / n;
  const centre = share + (z * z) / (2 * n);
  const half = z * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n));
  const over = 1 + (z * z) / n;
  return { share, low: Math.max(0, (centre - half) / over), high: Math.min(1, (centre + half) / over) };
}
