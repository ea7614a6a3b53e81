import { type Curve, highOf, lowOf, SAME_MM, valueAt } from './curve.ts';
import { Draft } from './draft.ts';

/**
 * The least of `own(x) + moved(x - shift) - price * x`, infinite where their limits leave nothing. Walks both lists of
 * kinks together, without building the sum: most sums are only ever asked for this one number. At least one of the two
 * must be limited on both sides.
 *
 * @param shift how far the frame of the second curve lies below, mm.
 */
export function leastOfTwo(own: Curve, moved: Curve, shift: number, price: number): number {
  const low = Math.max(lowOf(own), lowOf(moved) + shift);
  const high = Math.min(highOf(own), highOf(moved) + shift);
  if (low > high + SAME_MM) return Number.POSITIVE_INFINITY;
  const n = own.at.length;
  const m = moved.at.length;
  let x = low;
  // Kinks at or below x.
  let i = 0;
  let k = 0;
  for (;;) {
    while (i < n && (own.at[i] as number) <= x) i++;
    while (k < m && (moved.at[k] as number) + shift <= x) k++;
    if (x >= high || (own.slope[i] as number) + (moved.slope[k] as number) >= price) break;
    const next = i < n ? (own.at[i] as number) : Number.POSITIVE_INFINITY;
    const other = k < m ? (moved.at[k] as number) + shift : Number.POSITIVE_INFINITY;
    x = Math.min(next, other, high);
  }
  return valueAfter(own, i, x) + valueAfter(moved, k, x - shift) - price * x;
}

/** Cost at x, given how many kinks lie at or below it. */
function valueAfter({ at, value, slope }: Curve, kinks: number, x: number): number {
  const from = kinks === 0 ? 0 : kinks - 1;
  const steep = slope[kinks] as number;
  // Infinite: at a limit, or beyond it by rounding only.
  return Number.isFinite(steep)
    ? (value[from] as number) + steep * (x - (at[from] as number))
    : (value[from] as number);
}

const draft = new Draft();

/** The sum `own(x) + moved(x - shift)` as one curve, null where their limits leave nothing. */
export function sumOfTwo(own: Curve, moved: Curve, shift: number): Curve | null {
  const low = Math.max(lowOf(own), lowOf(moved) + shift);
  const high = Math.min(highOf(own), highOf(moved) + shift);
  if (low > high + SAME_MM) return null;
  let i = 0;
  let k = 0;
  let isEmpty = true;
  const put = (x: number, steep: number) => {
    const value = valueAt(own, x) + valueAt(moved, x - shift);
    if (isEmpty) draft.start(x, value, steep);
    else draft.put(x, value, steep);
    isEmpty = false;
  };
  if (low > Number.NEGATIVE_INFINITY) put(low, Number.NEGATIVE_INFINITY);
  while (i < own.at.length || k < moved.at.length) {
    const a = i < own.at.length ? (own.at[i] as number) : Number.POSITIVE_INFINITY;
    const b = k < moved.at.length ? (moved.at[k] as number) + shift : Number.POSITIVE_INFINITY;
    const x = Math.min(a, b);
    if (x >= high) break;
    if (isEmpty || x > draft.last) put(x, (own.slope[i] as number) + (moved.slope[k] as number));
    if (a <= b) i++;
    else k++;
  }
  const steep = (own.slope[i] as number) + (moved.slope[k] as number);
  if (high === Number.POSITIVE_INFINITY) return draft.done(steep);
  if (high > draft.last) put(high, steep);
  return draft.done(Number.POSITIVE_INFINITY);
}
