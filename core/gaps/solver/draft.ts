import type { Curve } from './curve.ts';

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
