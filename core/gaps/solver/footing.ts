import { type Curve, SAME_MM } from './curve.ts';
import type { Lengths, Tied } from './settle.ts';

/** Steps below this are rounding. */
const FLAT = 1e-10;

/**
 * The six curves at one point: slopes both ways, and how far it is to the kink where each slope ends. One object serves one
 * construct after another.
 */
export class Footing {
  /** The three lengths and their differences, in the order of the curves. */
  private readonly x = [0, 0, 0, 0, 0, 0];
  /** Rise of cost per mm upwards and downwards, for each of the six. */
  readonly up = [0, 0, 0, 0, 0, 0];
  readonly down = [0, 0, 0, 0, 0, 0];
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
    this.stand(at);
    return this;
  }

  /** Stands elsewhere on the same curves. */
  stand(at: Lengths): void {
    this.place(at);
    for (let i = 0; i < 6; i++) this.look(i);
  }

  /** Stands elsewhere after a move: only what it shifts is looked at again. */
  moved(move: readonly number[], at: Lengths): void {
    this.place(at);
    for (let i = 0; i < 6; i++) if (move[i] !== 0) this.look(i);
  }

  private place({ j, q, k }: Lengths): void {
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
    this.down[i] = -(slope[kink] as number);
    while (kink < at.length && (at[kink] as number) <= x + SAME_MM) kink++;
    this.above[i] = kink;
    this.up[i] = slope[kink] as number;
  }

  /** Whether a curve bends here. */
  bends(i: number): boolean {
    return (this.above[i] as number) > (this.from[i] as number);
  }

  /** Rise of one curve's cost over a step of its length, mm. */
  riseOf(i: number, step: number): number {
    if (step > FLAT) return step * (this.up[i] as number);
    return step < -FLAT ? -step * (this.down[i] as number) : 0;
  }

  /** How many such steps it is to the kink where the slope of one curve ends. */
  roomOf(i: number, step: number): number {
    if (Math.abs(step) < FLAT) return Number.POSITIVE_INFINITY;
    const { at } = this.curves[i] as Curve;
    const kink = at[step > 0 ? (this.above[i] as number) : (this.from[i] as number) - 1];
    return kink === undefined ? Number.POSITIVE_INFINITY : (kink - (this.x[i] as number)) / step;
  }

  /** Rise of cost per mm along a move, which shifts each of the six by one up, one down, or not. */
  slopeOf(move: readonly number[]): number {
    const { up, down } = this;
    let slope = 0;
    for (let i = 0; i < 6; i++) {
      const step = move[i] as number;
      if (step > 0) slope += up[i] as number;
      else if (step < 0) slope += down[i] as number;
    }
    return slope;
  }

  /** How far the move can go before one of its slopes changes, mm. */
  roomFor(move: readonly number[]): number {
    let room = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 6; i++) if (move[i] !== 0) room = Math.min(room, this.roomOf(i, move[i] as number));
    return room;
  }
}
