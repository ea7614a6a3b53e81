import { type Hinges, roomTo, SAME_MM, slopeDown, slopeUp, valueAt } from './hinges.ts';

/**
 * Everything that is charged once the parts are chosen: three lengths are left, the femur's height J, its place from
 * front to back q, and the bearing's height K. Each has its own hinges, and each pair is tied by hinges in its
 * difference: J - K (extension), q - K (flexion), q - J (flexion less extension).
 */
export interface Tied {
  readonly j: Hinges;
  readonly q: Hinges;
  readonly k: Hinges;
  readonly jLessK: Hinges;
  readonly qLessK: Hinges;
  readonly qLessJ: Hinges;
}

export interface Settled {
  readonly j: number;
  readonly q: number;
  readonly k: number;
  readonly cost: number;
}

/** Each move shifts some of J, q, K together; the last three columns are what that does to the differences. */
const MOVES: readonly (readonly number[])[] = [
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
export function highestAllowed(t: Tied): { j: number; q: number; k: number } | null {
  let { high: j } = t.j;
  let { high: q } = t.q;
  let { high: k } = t.k;
  // Three lengths: a chain of bounds is at most two links long, a third round finds a contradiction.
  for (let round = 0; round < 3; round++) {
    j = Math.min(j, k + t.jLessK.high, q - t.qLessJ.low);
    q = Math.min(q, k + t.qLessK.high, j + t.qLessJ.high);
    k = Math.min(k, j - t.jLessK.low, q - t.qLessK.low);
  }
  return allows(t, { j, q, k }) ? { j, q, k } : null;
}

const fits = (x: number, h: Hinges): boolean => x >= h.low - SAME_MM && x <= h.high + SAME_MM;

const allows = (t: Tied, { j, q, k }: { j: number; q: number; k: number }): boolean =>
  fits(j, t.j) &&
  fits(q, t.q) &&
  fits(k, t.k) &&
  fits(j - k, t.jLessK) &&
  fits(q - k, t.qLessK) &&
  fits(q - j, t.qLessJ);

const costAt = (t: Tied, j: number, q: number, k: number): number =>
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
 * Analysis, SIAM 2003: polyhedral L-natural convex functions), and each move ends at a hinge, so it ends.
 *
 * @param wish where to begin if the limits allow it: the bottoms of the three lengths' own hinges.
 * @returns lengths in mm and their cost; null where the limits contradict each other.
 */
export function settle(t: Tied, wish: { readonly j: number; readonly q: number; readonly k: number }): Settled | null {
  const start = allows(t, wish) ? wish : highestAllowed(t);
  if (!start) return null;
  const parts = [t.j, t.q, t.k, t.jLessK, t.qLessK, t.qLessJ];
  let { j, q, k } = start;
  const x = [j, q, k, j - k, q - k, q - j];
  const up = parts.map((h, i) => slopeUp(h, x[i] as number));
  const down = parts.map((h, i) => slopeDown(h, x[i] as number));
  for (let m = 0; m < MOVES.length; ) {
    const move = MOVES[m] as readonly number[];
    let slope = 0;
    for (let i = 0; i < 6; i++) {
      const way = move[i] as number;
      if (way > 0) slope += up[i] as number;
      else if (way < 0) slope += down[i] as number;
    }
    if (!(slope < -1e-12)) {
      m++;
      continue;
    }
    let step = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 6; i++) {
      const way = move[i] as number;
      if (way !== 0) step = Math.min(step, roomTo(parts[i] as Hinges, x[i] as number, way));
    }
    j += step * (move[0] as number);
    q += step * (move[1] as number);
    k += step * (move[2] as number);
    x[0] = j;
    x[1] = q;
    x[2] = k;
    x[3] = j - k;
    x[4] = q - k;
    x[5] = q - j;
    for (let i = 0; i < 6; i++) {
      if (move[i] === 0) continue;
      up[i] = slopeUp(parts[i] as Hinges, x[i] as number);
      down[i] = slopeDown(parts[i] as Hinges, x[i] as number);
    }
    m = 0;
  }
  return { j, q, k, cost: costAt(t, j, q, k) };
}
