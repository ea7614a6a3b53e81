import { type Curve, SAME_MM } from './curve.ts';
import type { Lengths, Tied } from './settle.ts';

/** Steps below this are rounding. */
const FLAT = 1e-10;

/** A shift of some of J, q, K together by 1 mm, and which slopes it meets: of `Footing.rise`, upwards 0 to 5, downwards 6 to 11. */
export interface Move {
  readonly j: number;
  readonly q: number;
  readonly k: number;
  readonly meets: readonly number[];
}

/** The fourteen moves: every subset of the lengths, up and down. */
export const MOVES: readonly Move[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [1, 1, 0],
  [1, 0, 1],
  [0, 1, 1],
  [1, 1, 1],
].flatMap(([j = 0, q = 0, k = 0]) =>
  [1, -1].map((way): Move => {
    const steps = [j, q, k, j - k, q - k, q - j].map((step) => way * step);
    const meets = steps.flatMap((step, i) => (step > 0 ? [i] : step < 0 ? [6 + i] : []));
    return { j: way * j, q: way * q, k: way * k, meets };
  }),
);

/**
 * The six curves at one point: slopes both ways, and how far it is to the kink where each slope ends. One object serves one
 * construct after another.
 */
export class Footing {
  /** The three lengths and their differences, in the order of the curves. */
  private readonly x = [0.5, 0.5, 0.5, 0.5, 0.5, 0.5];
  /** Rise of cost per mm: of each of the six upwards, then of each downwards. */
  readonly rise = [0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5];
  private readonly curves: Curve[] = [];
  /** Index of the first kink above, and of the first one here or above. */
  private readonly above = [0, 0, 0, 0, 0, 0];
  private readonly from = [0, 0, 0, 0, 0, 0];

  /** Stands on the curves of one construct. */
  on(t: Tied, at: Lengths): this {
    const { curves } = this;
    curves[0] = t.j;
    curves[1] = t.q;
    curves[2] = t.k;
    curves[3] = t.jLessK;
    curves[4] = t.qLessK;
    curves[5] = t.qLessJ;
    this.stand(at.j, at.q, at.k);
    return this;
  }

  /** Stands elsewhere on the same curves. */
  stand(j: number, q: number, k: number): void {
    this.place(j, q, k);
    for (let i = 0; i < 6; i++) this.look(i);
  }

  /** Stands elsewhere after a move: only what it shifts is looked at again. */
  moved({ meets }: Move, j: number, q: number, k: number): void {
    this.place(j, q, k);
    for (let n = 0; n < meets.length; n++) this.look((meets[n] as number) % 6);
  }

  private place(j: number, q: number, k: number): void {
    const { x } = this;
    x[0] = j;
    x[1] = q;
    x[2] = k;
    x[3] = j - k;
    x[4] = q - k;
    x[5] = q - j;
  }

  private look(i: number): void {
    const { at, slope } = this.curves[i] as Curve;
    const x = this.x[i] as number;
    let kink = 0;
    while (kink < at.length && (at[kink] as number) < x - SAME_MM) kink++;
    this.from[i] = kink;
    this.rise[6 + i] = -(slope[kink] as number);
    while (kink < at.length && (at[kink] as number) <= x + SAME_MM) kink++;
    this.above[i] = kink;
    this.rise[i] = slope[kink] as number;
  }

  /** Whether a curve bends here. */
  bends(i: number): boolean {
    return (this.above[i] as number) > (this.from[i] as number);
  }

  /** Rise of one curve's cost over a step of its length, mm. */
  riseOf(i: number, step: number): number {
    if (step > FLAT) return step * (this.rise[i] as number);
    return step < -FLAT ? -step * (this.rise[6 + i] as number) : 0;
  }

  /** How many such steps it is to the kink where the slope of one curve ends. */
  roomOf(i: number, step: number): number {
    if (Math.abs(step) < FLAT) return Number.POSITIVE_INFINITY;
    return step > 0 ? this.roomUp(i) / step : this.roomDown(i) / -step;
  }

  /** How far it is to the next kink above, mm. */
  private roomUp(i: number): number {
    const kink = (this.curves[i] as Curve).at[this.above[i] as number];
    return kink === undefined ? Number.POSITIVE_INFINITY : kink - (this.x[i] as number);
  }

  /** The same below. */
  private roomDown(i: number): number {
    const from = this.from[i] as number;
    return from === 0
      ? Number.POSITIVE_INFINITY
      : (this.x[i] as number) - ((this.curves[i] as Curve).at[from - 1] as number);
  }

  /** Rise of cost per mm along a move. */
  slopeOf({ meets }: Move): number {
    const { rise } = this;
    let slope = 0;
    for (let n = 0; n < meets.length; n++) slope += rise[meets[n] as number] as number;
    return slope;
  }

  /** How far the move can go before one of its slopes changes, mm. */
  roomFor({ meets }: Move): number {
    let room = Number.POSITIVE_INFINITY;
    for (let n = 0; n < meets.length; n++) {
      const i = meets[n] as number;
      room = Math.min(room, i < 6 ? this.roomUp(i) : this.roomDown(i - 6));
    }
    return room;
  }
}
