/**
 * A convex function of one length, made of hinges and slopes: the sum over i of `left[i] * max(0, at[i] - x)` and
 * `right[i] * max(0, x - at[i])`, plus `base`, on `[low, high]` and infinite outside. Every term of the objective
 * is of this kind in one of J, q, K or in the difference of two of them.
 */
export interface Hinges {
  readonly at: readonly number[];
  readonly left: readonly number[];
  readonly right: readonly number[];
  readonly base: number;
  readonly low: number;
  readonly high: number;
}

/** Lengths closer than this are one length, mm: a millionth of a micrometre, far above rounding, far below meaning. */
export const SAME_MM = 1e-9;

export const NO_LIMIT = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

/** Builds hinges step by step; those without weight are left out. */
export class HingeSum {
  private readonly at: number[] = [];
  private readonly left: number[] = [];
  private readonly right: number[] = [];
  base = 0;
  low = NO_LIMIT.low;
  high = NO_LIMIT.high;

  /** Charges `left` for each mm below `at` and `right` for each mm above. */
  add(at: number, left: number, right: number): this {
    if (left !== 0 || right !== 0) {
      this.at.push(at);
      this.left.push(left);
      this.right.push(right);
    }
    return this;
  }

  /** Forbids everything outside `[low, high]`. */
  within(low: number, high: number): this {
    this.low = Math.max(this.low, low);
    this.high = Math.min(this.high, high);
    return this;
  }

  done(): Hinges {
    return { at: this.at, left: this.left, right: this.right, base: this.base, low: this.low, high: this.high };
  }
}

export function valueAt(h: Hinges, x: number): number {
  let sum = h.base;
  for (let i = 0; i < h.at.length; i++) {
    const d = x - (h.at[i] as number);
    sum += d > 0 ? d * (h.right[i] as number) : -d * (h.left[i] as number);
  }
  return sum;
}

/** Rise of cost per mm when moving up from x; infinite at the upper limit. */
export function slopeUp(h: Hinges, x: number): number {
  if (x >= h.high - SAME_MM) return Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let i = 0; i < h.at.length; i++)
    sum += (h.at[i] as number) <= x + SAME_MM ? (h.right[i] as number) : -(h.left[i] as number);
  return sum;
}

/** Rise of cost per mm when moving down from x; infinite at the lower limit. */
export function slopeDown(h: Hinges, x: number): number {
  if (x <= h.low + SAME_MM) return Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let i = 0; i < h.at.length; i++)
    sum += (h.at[i] as number) >= x - SAME_MM ? (h.left[i] as number) : -(h.right[i] as number);
  return sum;
}

/** How far x can move up (`+1`) or down (`-1`) before the slope changes, mm. */
export function roomTo(h: Hinges, x: number, way: number): number {
  let room = way > 0 ? h.high - x : x - h.low;
  for (let i = 0; i < h.at.length; i++) {
    const d = way * ((h.at[i] as number) - x);
    if (d > SAME_MM && d < room) room = d;
  }
  return room;
}

/** Where a convex function is least, and how much: the flat bottom `[from, to]`. */
export interface Bottom {
  readonly from: number;
  readonly to: number;
  readonly value: number;
}

/** The bottom of the hinges within their limits; null where the limits leave nothing. */
export function bottomOf(h: Hinges): Bottom | null {
  if (h.low > h.high + SAME_MM) return null;
  let from = h.low;
  let to = h.high;
  let value = Number.POSITIVE_INFINITY;
  const look = (x: number) => {
    if (!Number.isFinite(x) || x < h.low - SAME_MM || x > h.high + SAME_MM) return;
    const v = valueAt(h, x);
    if (v < value - 1e-12) {
      value = v;
      from = x;
      to = x;
    } else if (v <= value + 1e-12) {
      if (x < from) from = x;
      if (x > to) to = x;
    }
  };
  look(h.low);
  look(h.high);
  for (let i = 0; i < h.at.length; i++) look(h.at[i] as number);
  return value === Number.POSITIVE_INFINITY ? { from, to, value: h.base } : { from, to, value };
}

/** Least value of the hinges over `[low, high]`, given their bottom; infinite where the limits do not meet it. */
export function leastOver(h: Hinges, bottom: Bottom, span: { readonly low: number; readonly high: number }): number {
  const low = Math.max(span.low, h.low);
  const high = Math.min(span.high, h.high);
  if (low > high + SAME_MM) return Number.POSITIVE_INFINITY;
  if (high < bottom.from) return valueAt(h, high);
  if (low > bottom.to) return valueAt(h, low);
  return bottom.value;
}
