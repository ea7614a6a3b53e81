import { type Curve, highOf, lowOf, SAME_MM, SAME_SLOPE, valueAt } from './curve.ts';
import { Footing, MOVES, type Move } from './footing.ts';

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

const footing = new Footing();

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
  footing.on(t, start);
  for (let m = 0; m < MOVES.length; ) {
    const move = MOVES[m] as Move;
    if (!(footing.slopeOf(move) < -SAME_SLOPE)) {
      m++;
      continue;
    }
    const step = footing.roomFor(move);
    j += step * move.j;
    q += step * move.q;
    k += step * move.k;
    footing.moved(move, j, q, k);
    m = 0;
  }
  return { j, q, k, cost: costAt(t, { j, q, k }) };
}
