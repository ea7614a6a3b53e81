import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chiSquareP } from './chi-square.ts';

const p = (q: number, degrees: number): number => {
  const out = chiSquareP(q, degrees);
  if (!out.ok) throw new Error(out.reason.code);
  return out.value;
};

describe('chance beyond a chi-square value', () => {
  // Upper-tail critical values as printed, NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4 (three decimals).
  test.each([
    [3.841, 1, 0.05],
    [5.991, 2, 0.05],
    [7.815, 3, 0.05],
    [11.07, 5, 0.05],
    [18.307, 10, 0.05],
    [124.342, 100, 0.05],
    [6.635, 1, 0.01],
    [9.21, 2, 0.01],
    [15.086, 5, 0.01],
    [13.816, 2, 0.001],
    [2.706, 1, 0.1],
  ])('%s with %s degrees is %s', (q, degrees, expected) =>
    // A critical value rounded to three decimals fixes the chance to about 3 in 10 000 of itself.
    expect(Math.abs(p(q, degrees) / expected - 1)).toBeLessThan(6e-4),
  );

  test('with two degrees it is exp(-q/2) exactly', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 400, noNaN: true }), (q) => {
        expect(Math.abs(p(q, 2) / Math.exp(-q / 2) - 1)).toBeLessThan(1e-11);
      }),
    );
  });

  test('with one degree it is the two-sided normal tail: 0.05 at 1.959963984540054 squared', () =>
    expect(p(1.959963984540054 ** 2, 1)).toBeCloseTo(0.05, 14));

  test('two degrees more add (q/2)^(k/2) e^(-q/2) / Gamma(k/2 + 1): series and fraction agree across their border', () => {
    const gamma = (halves: number): number =>
      halves === 1 ? Math.sqrt(Math.PI) : halves === 2 ? 1 : ((halves - 2) / 2) * gamma(halves - 2);
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 60, noNaN: true }), fc.integer({ min: 1, max: 20 }), (q, k) => {
        const step = ((q / 2) ** (k / 2) * Math.exp(-q / 2)) / gamma(k + 2);
        expect(Math.abs(p(q, k + 2) - p(q, k) - step)).toBeLessThan(1e-12);
      }),
    );
  });

  test('falls as q grows and stays within 0 and 1', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.integer({ min: 1, max: 200 }),
        (q, more, k) => {
          const [a, b] = [p(q, k), p(q + more, k)];
          expect(a >= 0 && a <= 1 && b <= a + 1e-12).toBe(true);
        },
      ),
    );
  });

  test.each([
    [1, 0],
    [1, 1.5],
    [-1, 2],
    [Number.NaN, 2],
    [Number.POSITIVE_INFINITY, 2],
  ])('refuses q %s with %s degrees', (q, degrees) => expect(chiSquareP(q, degrees).ok).toBe(false));
  test('no disagreement at all is certain', () => expect(p(0, 3)).toBe(1));
});
