import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { guidedOrder, type Stop, tourLength } from './guided-order.ts';

const place = fc.record({
  x: fc.integer({ min: 0, max: 400 }),
  y: fc.integer({ min: 0, max: 400 }),
});

/** Every order of the stops. */
function* orders(stops: readonly Stop[]): Generator<readonly Stop[]> {
  if (stops.length <= 1) yield stops;
  for (const [i, first] of stops.entries())
    if (stops.length > 1) for (const rest of orders(stops.toSpliced(i, 1))) yield [first, ...rest];
}
const shortest = (stops: readonly Stop[], start: Stop): number =>
  Math.min(...Array.from(orders(stops), (tour) => tourLength(tour, start)));

describe('LM-8 order of least movement', () => {
  test('LM-8 against trying every order of up to six places: nearly always the shortest, never a twentieth longer', () => {
    let [sets, best] = [0, 0];
    fc.assert(
      fc.property(fc.array(place, { minLength: 2, maxLength: 6 }), place, (stops, start) => {
        const ratio = tourLength(guidedOrder(stops, start), start) / (shortest(stops, start) || 1);
        sets++;
        if (ratio < 1 + 1e-9) best++;
        expect(ratio).toBeLessThan(1.05);
      }),
      { numRuns: 120, seed: 11 },
    );
    expect(best / sets).toBeGreaterThan(0.97);
  });

  test('LM-8 every place is asked for exactly once, in one and the same order each time', () => {
    fc.assert(
      fc.property(fc.array(place, { maxLength: 14 }), (stops) => {
        const order = guidedOrder(stops);
        expect(new Set(order)).toEqual(new Set(stops));
        expect(order).toHaveLength(stops.length);
        expect(guidedOrder(stops)).toEqual(order);
      }),
      { numRuns: 40 },
    );
  });

  test('LM-8 without a start it begins at the top; places on one line are asked for along it', () => {
    const line = [3, 0, 4, 1, 2].map((y) => ({ x: 0, y }));
    expect(guidedOrder(line).map((s) => s.y)).toEqual([0, 1, 2, 3, 4]);
    expect(guidedOrder(line, { x: 1, y: 9 }).map((s) => s.y)).toEqual([4, 3, 2, 1, 0]);
  });
});
