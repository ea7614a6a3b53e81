import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { pricesOf } from '../price.ts';
import { DEFAULT_SETTINGS } from '../solve.ts';
import { boundsOf } from './bounds.ts';
import { cheapestSeats, insertCosts, leastSeat } from './least-seat.ts';
import { prepare } from './prepare.ts';
import type { Bearing, Seat } from './prepared.ts';

const catalogue = demoCatalogue();
const bounds = boundsOf(catalogue, DEFAULT_SETTINGS, 0);
const prices = pricesOf(DEFAULT_WEIGHTS);

/** Trying every seat. */
const everySeat = ({ seats }: Pick<Bearing, 'seats'>, costs: readonly number[], price: number): number =>
  Math.min(...seats.map(({ shiftMm }, s) => (costs[s] as number) - price * shiftMm));

describe('the cheapest seats of a tray, against trying each', () => {
  test('whatever a mm of height earns', () =>
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 8, max: 30 }), fc.integer({ min: 0, max: 12 })), { minLength: 1 }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        (seats, price) => {
          const bearing = { seats: seats.map(([shiftMm]) => ({ shiftMm }) as Seat) };
          const costs = seats.map(([, cost]) => cost / 4);
          const few = cheapestSeats(bearing, costs);
          expect(leastSeat(few, price)).toBeCloseTo(everySeat(bearing, costs, price), 9);
          expect(few.length).toBeLessThanOrEqual(seats.length);
        },
      ),
    ));

  test('of the example system few are left, and polyethylene that is too thin is none of them', () => {
    const [bearing] = prepare(catalogue).usualFemurs.right[3]?.bearings.ps.all ?? [];
    if (!bearing) throw new Error('The example system has no tray for its fourth femur.');
    const costs = insertCosts(bearing, { prices, bounds });
    const few = cheapestSeats(bearing, costs);
    expect(few.length).toBeLessThan(bearing.seats.length / 2);
    for (const price of [-2, -0.3, 0, 0.1, 0.25, 0.6, 1.25, 3])
      expect(leastSeat(few, price)).toBeCloseTo(everySeat(bearing, costs, price), 9);
    const thickOnly = insertCosts(bearing, { prices, bounds: { ...bounds, leastPolyethyleneMm: 14 } });
    const thin = bearing.seats.filter((_, s) => thickOnly[s] === Number.POSITIVE_INFINITY);
    expect(thin.map(({ insert }) => insert.leastPolyethyleneMm >= 14)).not.toContain(true);
    expect(thin.length).toBeGreaterThan(0);
    expect(cheapestSeats(bearing, thickOnly).every(({ cost }) => cost < Number.POSITIVE_INFINITY)).toBe(true);
    expect(
      leastSeat(
        cheapestSeats(
          bearing,
          bearing.seats.map(() => Number.POSITIVE_INFINITY),
        ),
        1,
      ),
    ).toBe(Number.POSITIVE_INFINITY);
  });
});
