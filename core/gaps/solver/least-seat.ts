import { insertCost } from './candidates.ts';
import type { Bearing } from './prepare.ts';
import type { Question } from './tables.ts';
import { NEVER } from './whole-parts.ts';

/** An insert on a tray as the bearing's height sees it. */
interface SeatPoint {
  /** Height of tray and insert together, mm. */
  readonly shiftMm: number;
  /** What the insert costs for its thickness. */
  readonly cost: number;
}

/** Whether `b` lies on or above the line from `a` to `c`. */
const isAbove = (a: SeatPoint, b: SeatPoint, c: SeatPoint): boolean =>
  (b.cost - a.cost) * (c.shiftMm - a.shiftMm) >= (c.cost - a.cost) * (b.shiftMm - a.shiftMm);

/**
 * The seats of a tray that are the cheapest when each mm of height earns some price: the lower convex hull of height
 * against cost. What is too thin is left out.
 */
export function cheapestSeats({ seats }: Bearing, { prices, bounds }: Pick<Question, 'prices' | 'bounds'>): SeatPoint[] {
  const points = seats
    .filter(({ insert }) => insert.leastPolyethyleneMm >= bounds.leastPolyethyleneMm)
    .map((seat): SeatPoint => ({ shiftMm: seat.shiftMm, cost: insertCost(seat, prices) }))
    .sort((a, b) => a.shiftMm - b.shiftMm || a.cost - b.cost);
  const hull: SeatPoint[] = [];
  for (const point of points) {
    while (hull.length > 1 && isAbove(hull.at(-2) as SeatPoint, hull.at(-1) as SeatPoint, point)) hull.pop();
    hull.push(point);
  }
  return hull;
}

/** The least of any seat when each mm of height earns its price; infinite where there is none. */
export function leastSeat(seats: readonly SeatPoint[], price: number): number {
  let least = NEVER;
  for (const { shiftMm, cost } of seats) least = Math.min(least, cost - price * shiftMm);
  return least;
}
