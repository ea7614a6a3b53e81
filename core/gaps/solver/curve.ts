/**
 * A convex function of one length made of straight pieces, as every term of the objective is one in J, q, K or in the
 * difference of two of them. `slope[i]` holds left of `at[i]`, the last slope right of the last kink; a slope of minus
 * infinity before the first kink, or of infinity after the last, is a limit that nothing buys off.
 */
export interface Curve {
  /** Kinks in mm, ascending; at least one. */
  readonly at: readonly number[];
  /** Cost at the kinks. */
  readonly value: readonly number[];
  /** Cost per mm between them: one more than kinks, never falling. */
  readonly slope: readonly number[];
}

/** Lengths closer than this are one length, mm: a millionth of a micrometre, far above rounding, far below meaning. */
export const SAME_MM = 1e-9;
/** Slopes closer than this are one slope, cost per mm: what rounding leaves of a sum of weights. */
export const SAME_SLOPE = 1e-12;
export const NO_LIMIT = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

/** Lowest length that the curve allows, mm; minus infinity where there is no limit. */
export const lowOf = ({ at, slope }: Curve): number =>
  slope[0] === Number.NEGATIVE_INFINITY ? (at[0] as number) : Number.NEGATIVE_INFINITY;

/** Highest length that the curve allows, mm; infinity where there is no limit. */
export const highOf = ({ at, slope }: Curve): number =>
  slope[at.length] === Number.POSITIVE_INFINITY ? (at[at.length - 1] as number) : Number.POSITIVE_INFINITY;

/** Cost at x, which must lie within the limits to within `SAME_MM`. */
export function valueAt({ at, value, slope }: Curve, x: number): number {
  const n = at.length;
  let i = 0;
  while (i < n && (at[i] as number) < x) i++;
  const from = i === 0 ? 0 : i - 1;
  const off = x - (at[from] as number);
  const steep = slope[i] as number;
  if (off === 0) return value[from] as number;
  // Beyond a limit by rounding only.
  if (i === n && steep === Number.POSITIVE_INFINITY) return value[n - 1] as number;
  if (i === 0 && steep === Number.NEGATIVE_INFINITY) return value[0] as number;
  return (value[from] as number) + steep * off;
}

/** Lowest length at which the curve is least, mm. */
export function bottomFrom({ at, slope }: Curve): number {
  let i = 0;
  while (i < at.length - 1 && (slope[i + 1] as number) < -SAME_SLOPE) i++;
  return at[i] as number;
}

/**
 * The least of `curve(x) - price * x`: what the curve costs at best when each mm earns its price. Minus infinity where
 * the price is steeper than the curve.
 */
export function leastAt({ at, value, slope }: Curve, price: number): number {
  const n = at.length;
  if ((slope[0] as number) > price || (slope[n] as number) < price) return Number.NEGATIVE_INFINITY;
  let i = 0;
  while (i < n - 1 && (slope[i + 1] as number) < price) i++;
  return (value[i] as number) - price * (at[i] as number);
}
