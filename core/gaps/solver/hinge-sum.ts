import type { Weight } from '../weights.ts';
import { type Curve, NO_LIMIT, SAME_MM } from './curve.ts';
import { Draft } from './draft.ts';

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
