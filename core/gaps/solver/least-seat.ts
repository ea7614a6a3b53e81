import { insertCost } from './candidates.ts';
import type { Bearing } from './prepared.ts';
import type { Question } from './question.ts';
import { NEVER } from './whole-parts.ts';

/** An insert on a tray as the bearing's height sees it. */
export interface SeatPoint {
  /** Height of tray and insert together, mm. */
  readonly shiftMm: number;
  /** What the insert costs for its thickness. */
  readonly cost: number;
}

/** Whether `b` lies on or above the line from `a` to `c`. */
const isAbove = (a: SeatPoint, b: SeatPoint, c: SeatPoint): boolean =>
  (b.cost - a.cost) * (c.shiftMm - a.shiftMm) >= (c.cost - a.cost) * (b.shiftMm - a.shiftMm);

/** What the insert of each seat costs for its thickness; infinite where it is too thin. */
export const insertCosts = (
  { seats }: Pick<Bearing, 'seats'>,
  { prices, bounds }: Pick<Question, 'prices' | 'bounds'>,
): number[] =>
  seats.map((seat) =>
    seat.insert.leastPolyethyleneMm < bounds.leastPolyethyleneMm ? NEVER : insertCost(seat, prices),
  );

/**
 * The seats of a tray that are the cheapest when each mm of height earns some price: the lower convex hull of height
 * against cost.
 */
export function cheapestSeats({ seats }: Pick<Bearing, 'seats'>, costs: readonly number[]): SeatPoint[] {
  const points = seats
    .map((seat, s): SeatPoint => ({ shiftMm: seat.shiftMm, cost: costs[s] as number }))
    .filter(({ cost }) => cost < NEVER)
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
