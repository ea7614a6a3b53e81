import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cheapestFirst } from './choices.ts';
import { type Curve, highOf, leastAt, lowOf, valueAt } from './curve.ts';
import { HingeSum } from './hinge-sum.ts';
import { leastOfTwo, sumOfTwo } from './two-curves.ts';

/** Hinges on a grid, so that some fall together; each with its own price left and right. */
const hinge = fc.record({
  at: fc.integer({ min: -20, max: 20 }).map((n) => n / 2),
  left: fc.integer({ min: 0, max: 6 }).map((n) => n / 4),
  right: fc.integer({ min: 0, max: 6 }).map((n) => n / 4),
});
type Hinge = { readonly at: number; readonly left: number; readonly right: number };
const hinges = fc.array(hinge, { minLength: 1, maxLength: 8 });
const limits = fc.tuple(fc.integer({ min: -15, max: 0 }), fc.integer({ min: 0, max: 15 }));

const add = (sum: HingeSum, list: readonly Hinge[]): HingeSum => {
  for (const { at, left, right } of list) sum.add(at, left, right);
  return sum;
};
const directly = (list: readonly Hinge[], x: number): number =>
  list.reduce((cost, { at, left, right }) => cost + (x < at ? left * (at - x) : right * (x - at)), 0);

const built = (list: readonly Hinge[], [low, high]: readonly [number, number]): Curve =>
  add(new HingeSum(), list).within(low, high).done() as Curve;

/** Every quarter of a millimetre between two limits: all kinks lie there. */
const grid = (low: number, high: number): number[] => {
  const steps = Math.round((high - low) * 4);
  return Array.from({ length: steps + 1 }, (_, i) => low + i / 4);
};

describe('curves of the three lengths, against their hinges added up one by one', () => {
  test('a sum of hinges costs at every place what the hinges cost there', () =>
    fc.assert(
      fc.property(hinges, limits, fc.nat(9), (list, [low, high], always) => {
        const curve = add(new HingeSum(), list).always(always).within(low, high).done() as Curve;
        expect([lowOf(curve), highOf(curve)]).toEqual([low, high]);
        for (const x of grid(low, high)) expect(valueAt(curve, x)).toBeCloseTo(always + directly(list, x), 9);
        for (let i = 1; i < curve.slope.length; i++)
          expect(curve.slope[i]).toBeGreaterThanOrEqual((curve.slope[i - 1] as number) - 1e-12);
      }),
    ));

  test('a sum that begins with all that another holds is the sum of both, and leaves the other as it was', () =>
    fc.assert(
      fc.property(hinges, hinges, limits, (first, more, [low, high]) => {
        const kept = add(new HingeSum(), first).always(2).within(low, high);
        const sum = new HingeSum();
        add(sum, more).done();
        const both = add(sum.from(kept), more).done() as Curve;
        const alone = kept.done() as Curve;
        for (const x of grid(low, high)) {
          expect(valueAt(both, x)).toBeCloseTo(2 + directly([...first, ...more], x), 9);
          expect(valueAt(alone, x)).toBeCloseTo(2 + directly(first, x), 9);
        }
      }),
    ));

  test('limits that contradict each other leave nothing, and the next sum is free of them', () => {
    const sum = new HingeSum();
    expect(sum.add(1, 1, 1).within(3, 2).done()).toBeNull();
    expect(sum.add(0, 2, 1).done()).toEqual({ at: [0], value: [0], slope: [-2, 1] });
  });

  test('the least of one and of two curves at a price is the least over all places', () =>
    fc.assert(
      fc.property(hinges, hinges, limits, limits, fc.integer({ min: -8, max: 8 }), (a, b, one, two, price) => {
        const shift = 1.5;
        const own = built(a, one);
        const moved = built(b, two);
        const at = (x: number) => directly(a, x) - price * x;
        expect(leastAt(own, price)).toBeCloseTo(Math.min(...grid(...one).map(at)), 9);
        const low = Math.max(one[0], two[0] + shift);
        const high = Math.min(one[1], two[1] + shift);
        const least = leastOfTwo(own, moved, shift, price);
        const sum = sumOfTwo(own, moved, shift);
        if (low > high) {
          expect([least, sum]).toEqual([Number.POSITIVE_INFINITY, null]);
          return;
        }
        const both = (x: number) => directly(a, x) + directly(b, x - shift);
        expect(least).toBeCloseTo(Math.min(...grid(low, high).map((x) => both(x) - price * x)), 9);
        for (const x of grid(low, high)) expect(valueAt(sum as Curve, x)).toBeCloseTo(both(x), 9);
      }),
    ));

  test('sorting by insertion is that of the library: cheapest first, equal ones in their order', () =>
    fc.assert(
      fc.property(fc.array(fc.nat(5)), (costs) => {
        const choices = costs.map((least, place) => ({ least, place }));
        expect(cheapestFirst([...choices])).toEqual(choices.toSorted((x, y) => x.least - y.least));
      }),
    ));
});
