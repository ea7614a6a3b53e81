import type { Weight } from '../weights.ts';

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

/** Where a curve is written before its length is known: thousands are made, and each is to hold no more than it needs. */
export class Draft {
  private count = 0;
  private readonly at = [0.5];
  private readonly value = [0.5];
  private readonly slope = [0.5];

  /** Begins with the first kink, its cost and the slope left of it. */
  start(at: number, value: number, slope: number): void {
    this.count = 0;
    this.put(at, value, slope);
  }

  /** Goes on to a further kink. */
  put(at: number, value: number, slope: number): void {
    const i = this.count++;
    this.at[i] = at;
    this.value[i] = value;
    this.slope[i] = slope;
  }

  /** The last kink. */
  get last(): number {
    return this.at[this.count - 1] as number;
  }

  /** The curve, with the slope right of its last kink. */
  done(slope: number): Curve {
    const { count } = this;
    this.slope[count] = slope;
    return {
      at: this.at.slice(0, count),
      value: this.value.slice(0, count),
      slope: this.slope.slice(0, count + 1),
    };
  }
}

const draft = new Draft();

/** Builds a curve out of hinges, in any order; those without weight are left out. One can be used again after `done`. */
export class HingeSum {
  /** How many of the hinges below are in use; what lies beyond is left from before, so that nothing is made anew. */
  private count = 0;
  private readonly at = [0.5];
  private readonly bend = [0.5];
  /** Slope left of every hinge, and cost where all hinges would meet at zero: what falls, less what it has fallen by. */
  private before = 0;
  private falling = 0;
  private base = 0;
  private low = NO_LIMIT.low;
  private high = NO_LIMIT.high;

  /** Charges `left` for each mm below `at` and `right` for each mm above. */
  add(at: number, left: number, right: number): this {
    if (left === 0 && right === 0) return this;
    let i = this.count++;
    while (i > 0 && (this.at[i - 1] as number) > at) {
      this.at[i] = this.at[i - 1] as number;
      this.bend[i] = this.bend[i - 1] as number;
      i--;
    }
    this.at[i] = at;
    this.bend[i] = left + right;
    this.before -= left;
    this.falling += left * at;
    return this;
  }

  /** Charges each mm outside a free zone. */
  outside({ free, weight }: Pick<Weight, 'free' | 'weight'>, offset = 0): this {
    return this.add(free[0] - offset, weight, 0).add(free[1] - offset, 0, weight);
  }

  /** Charges whatever the length. */
  always(cost: number): this {
    this.base += cost;
    return this;
  }

  /** Forbids everything outside `[low, high]`. */
  within(low: number, high: number): this {
    if (low > this.low) this.low = low;
    if (high < this.high) this.high = high;
    return this;
  }

  /** Holds the length where it was fixed by hand, if it was. */
  fixedAt(at: number | undefined): this {
    return at === undefined ? this : this.within(at, at);
  }

  /** Begins again with all that another sum holds. */
  from(other: HingeSum): this {
    this.count = other.count;
    for (let i = 0; i < this.count; i++) {
      this.at[i] = other.at[i] as number;
      this.bend[i] = other.bend[i] as number;
    }
    this.before = other.before;
    this.falling = other.falling;
    this.base = other.base;
    this.low = other.low;
    this.high = other.high;
    return this;
  }

  /** Lets everything go. */
  clear(): void {
    this.count = 0;
    this.before = 0;
    this.falling = 0;
    this.base = 0;
    this.low = NO_LIMIT.low;
    this.high = NO_LIMIT.high;
  }

  /** The curve, null where the limits leave nothing; the sum is empty afterwards. */
  done(): Curve | null {
    const curve = this.low > this.high + SAME_MM ? null : this.curve();
    this.clear();
    return curve;
  }

  private curve(): Curve {
    const { at: kinks, bend, low, count } = this;
    const high = Math.max(low, this.high);
    const first = low > NO_LIMIT.low ? low : Math.min(count > 0 ? (kinks[0] as number) : 0, high);
    let steep = this.before;
    let cost = this.base + this.falling + this.before * first;
    let i = 0;
    for (; i < count && (kinks[i] as number) <= first; i++) {
      steep += bend[i] as number;
      cost += (bend[i] as number) * (first - (kinks[i] as number));
    }
    draft.start(first, cost, low > NO_LIMIT.low ? Number.NEGATIVE_INFINITY : this.before);
    let last = first;
    for (; i < count && (kinks[i] as number) < high; i++) {
      const x = kinks[i] as number;
      if (x > last) {
        cost += steep * (x - last);
        draft.put(x, cost, steep);
        last = x;
      }
      steep += bend[i] as number;
    }
    if (high < NO_LIMIT.high && high > last) draft.put(high, cost + steep * (high - last), steep);
    return draft.done(high < NO_LIMIT.high ? Number.POSITIVE_INFINITY : steep);
  }
}

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
