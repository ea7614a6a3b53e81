import { type Curve, firstAbove, firstFrom, highOf, lowOf, SAME_MM, SAME_SLOPE, valueAt } from './curve.ts';

/**
 * Everything that is charged once the parts are chosen: three lengths are left, the femur's height J, its place from
 * front to back q, and the bearing's height K. Each has its own curve, and each pair is tied by a curve in its
 * difference: J - K (extension), q - K (flexion), q - J (flexion less extension).
 */
export interface Tied {
  readonly j: Curve;
  readonly q: Curve;
  readonly k: Curve;
  readonly jLessK: Curve;
  readonly qLessK: Curve;
  readonly qLessJ: Curve;
}

export interface Lengths {
  readonly j: number;
  readonly q: number;
  readonly k: number;
}

export interface Settled extends Lengths {
  readonly cost: number;
}

/** Each move shifts some of J, q, K together; the last three columns are what that does to the differences. */
export const MOVES: readonly (readonly number[])[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [1, 1, 0],
  [1, 0, 1],
  [0, 1, 1],
  [1, 1, 1],
].flatMap(([j = 0, q = 0, k = 0]) =>
  [1, -1].map((w) => [w * j, w * q, w * k, w * (j - k), w * (q - k), w * (q - j)] as const),
);

/**
 * A point that keeps every limit: the highest one, which exists whenever any point does, because the limits bound
 * single lengths and differences only (the higher of two allowed points, length by length, is allowed too).
 * Null where there is none.
 */
export function highestAllowed(t: Tied): Lengths | null {
  let j = highOf(t.j);
  let q = highOf(t.q);
  let k = highOf(t.k);
  // Three lengths: a chain of bounds is at most two links long, a third round finds a contradiction.
  for (let round = 0; round < 3; round++) {
    j = Math.min(j, k + highOf(t.jLessK), q - lowOf(t.qLessJ));
    q = Math.min(q, k + highOf(t.qLessK), j + highOf(t.qLessJ));
    k = Math.min(k, j - lowOf(t.jLessK), q - lowOf(t.qLessK));
  }
  return allows(t, { j, q, k }) ? { j, q, k } : null;
}

const fits = (x: number, curve: Curve): boolean => x >= lowOf(curve) - SAME_MM && x <= highOf(curve) + SAME_MM;

const allows = (t: Tied, { j, q, k }: Lengths): boolean =>
  fits(j, t.j) &&
  fits(q, t.q) &&
  fits(k, t.k) &&
  fits(j - k, t.jLessK) &&
  fits(q - k, t.qLessK) &&
  fits(q - j, t.qLessJ);

/** What the three lengths cost, mm in, cost out; the lengths must keep the limits. */
export const costAt = (t: Tied, { j, q, k }: Lengths): number =>
  valueAt(t.j, j) +
  valueAt(t.q, q) +
  valueAt(t.k, k) +
  valueAt(t.jLessK, j - k) +
  valueAt(t.qLessK, q - k) +
  valueAt(t.qLessJ, q - j);

/** The six curves at one point: slopes both ways, and how far it is to the kink where each slope ends. */
export class Footing {
  readonly x: number[];
  /** Rise of cost per mm upwards and downwards, for each of the six. */
  readonly up = [0, 0, 0, 0, 0, 0];
  readonly down = [0, 0, 0, 0, 0, 0];
  private readonly curves: readonly Curve[];
  private readonly above = [0, 0, 0, 0, 0, 0];
  private readonly from = [0, 0, 0, 0, 0, 0];

  constructor(t: Tied, { j, q, k }: Lengths) {
    this.curves = [t.j, t.q, t.k, t.jLessK, t.qLessK, t.qLessJ];
    this.x = [j, q, k, j - k, q - k, q - j];
    for (let i = 0; i < 6; i++) this.look(i);
  }

  /** Stands elsewhere after a move. */
  moved(move: readonly number[], { j, q, k }: Lengths): void {
    const { x } = this;
    x[0] = j;
    x[1] = q;
    x[2] = k;
    x[3] = j - k;
    x[4] = q - k;
    x[5] = q - j;
    for (let i = 0; i < 6; i++) if (move[i] !== 0) this.look(i);
  }

  private look(i: number): void {
    const curve = this.curves[i] as Curve;
    const x = this.x[i] as number;
    const above = firstAbove(curve, x);
    const from = firstFrom(curve, x);
    this.above[i] = above;
    this.from[i] = from;
    this.up[i] = curve.slope[above] as number;
    this.down[i] = -(curve.slope[from] as number);
  }

  /** Rise of cost per mm along a move. */
  slopeOf(move: readonly number[]): number {
    let slope = 0;
    for (let i = 0; i < 6; i++) {
      const way = move[i] as number;
      if (way > 0) slope += this.up[i] as number;
      else if (way < 0) slope += this.down[i] as number;
    }
    return slope;
  }

  /** How far the move can go before one of its slopes changes, mm. */
  roomFor(move: readonly number[]): number {
    let room = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 6; i++) {
      const way = move[i] as number;
      if (way === 0) continue;
      const { at } = this.curves[i] as Curve;
      const kink = at[way > 0 ? (this.above[i] as number) : (this.from[i] as number) - 1];
      if (kink === undefined) continue;
      const d = way * (kink - (this.x[i] as number));
      if (d < room) room = d;
    }
    return room;
  }
}

/**
 * The exact least cost of the three lengths (docs/decisions/solver.md). From an allowed point, moves any of J, q, K
 * together up or down as long as that lowers the cost. A sum of convex functions of single lengths and of
 * differences has no local minimum under these fourteen moves that is not the global one (Murota, Discrete Convex
 * Analysis, SIAM 2003: polyhedral L-natural convex functions), and each move ends at a kink, so it ends.
 *
 * @param wish where to begin if the limits allow it: the bottoms of the three lengths' own curves.
 * @returns lengths in mm and their cost; null where the limits contradict each other.
 */
export function settle(t: Tied, wish: Lengths): Settled | null {
  const start = allows(t, wish) ? wish : highestAllowed(t);
  if (!start) return null;
  let { j, q, k } = start;
  const footing = new Footing(t, start);
  for (let m = 0; m < MOVES.length; ) {
    const move = MOVES[m] as readonly number[];
    if (!(footing.slopeOf(move) < -SAME_SLOPE)) {
      m++;
      continue;
    }
    const step = footing.roomFor(move);
    j += step * (move[0] as number);
    q += step * (move[1] as number);
    k += step * (move[2] as number);
    footing.moved(move, { j, q, k });
    m = 0;
  }
  return { j, q, k, cost: costAt(t, { j, q, k }) };
}
