import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meanAndSd, normalDraws } from '../measure/normal-draws.ts';
import { fitCircle } from './circle.ts';
import { type Point, point } from './point.ts';

const P = (x: number, y: number) => point('coronal', x, y);
const arc = (centre: readonly [number, number], radius: number, degrees: readonly number[]): Point<'coronal'>[] =>
  degrees.map((d) =>
    P(centre[0] + radius * Math.cos((d * Math.PI) / 180), centre[1] + radius * Math.sin((d * Math.PI) / 180)),
  );
const fitted = (points: readonly Point<'coronal'>[]) => {
  const fit = fitCircle(points);
  if (!fit.ok) throw new Error(fit.reason.code);
  return fit.value;
};
const HEAD = [-20, 15, 50, 85, 120, 155, 190, 225];

describe('circle through marked points', () => {
  test('finds the circle that the points lie on, wherever it is', () => {
    const far = fc.double({ min: -5000, max: 5000, noNaN: true });
    fc.assert(
      fc.property(far, far, fc.double({ min: 5, max: 300, noNaN: true }), (x, y, r) => {
        const fit = fitted(arc([x, y], r, HEAD));
        expect(Math.hypot(fit.centre.x - x, fit.centre.y - y)).toBeLessThan(1e-6);
        expect(Math.abs(fit.radius - r)).toBeLessThan(1e-6);
        expect(fit.rms).toBeLessThan(1e-6);
      }),
    );
  });

  test('three points give their circumscribed circle', () => {
    const fit = fitted([P(0, 0), P(4, 0), P(0, 3)]);
    expect([fit.centre.x, fit.centre.y, fit.radius]).toEqual([
      expect.closeTo(2, 9),
      expect.closeTo(1.5, 9),
      expect.closeTo(2.5, 9),
    ]);
  });

  // Worked example of geometric least squares: Gander, Golub and Strebel, BIT 1994; 34:558, table of six points.
  test('the six points of Gander, Golub and Strebel give centre (4.7398, 2.9835), radius 4.7142', () => {
    const fit = fitted([P(1, 7), P(2, 6), P(5, 8), P(7, 7), P(9, 5), P(3, 7)]);
    expect(fit.centre.x).toBeCloseTo(4.7398, 4);
    expect(fit.centre.y).toBeCloseTo(2.9835, 4);
    expect(fit.radius).toBeCloseTo(4.7142, 4);
  });

  test('no circle nearby is closer to the points', () => {
    const points = arc([10, -3], 24, HEAD).map((p, i) => P(p.x + Math.sin(7 * i), p.y + Math.cos(5 * i)));
    const fit = fitted(points);
    const misfit = (x: number, y: number, r: number) =>
      points.reduce((s, p) => s + (Math.hypot(p.x - x, p.y - y) - r) ** 2, 0);
    const best = misfit(fit.centre.x, fit.centre.y, fit.radius);
    expect(Math.sqrt(best / points.length)).toBeCloseTo(fit.rms, 12);
    for (const [dx, dy, dr] of [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ] as const)
      expect(misfit(fit.centre.x + 0.01 * dx, fit.centre.y + 0.01 * dy, fit.radius + 0.01 * dr)).toBeGreaterThan(best);
  });

  test('turns and moves with its points', () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (deg) => {
        const points = arc([10, -3], 24, HEAD).map((p, i) => P(p.x + Math.sin(7 * i), p.y + Math.cos(5 * i)));
        const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
        const moved = (p: Point<'coronal'>) => P(p.x * c - p.y * s + 50, p.x * s + p.y * c - 70);
        const [before, after] = [fitted(points), fitted(points.map(moved))];
        expect(
          Math.hypot(after.centre.x - moved(before.centre).x, after.centre.y - moved(before.centre).y),
        ).toBeLessThan(1e-8);
        expect(after.radius).toBeCloseTo(before.radius, 8);
      }),
    );
  });

  test.each([
    ['a third of the outline', [60, 80, 100, 120, 140, 160, 180]],
    ['all round', [0, 45, 90, 135, 180, 225, 270, 315]],
  ])('covariance of the centre agrees with 20 000 draws, points on %s', (_, degrees) => {
    const sd = 0.5;
    const points = arc([0, 0], 24, degrees);
    const { centreCovariance: v } = fitted(points);
    const next = normalDraws(3);
    const drawn = Array.from(
      { length: 20_000 },
      () => fitted(points.map((p) => P(p.x + sd * next(), p.y + sd * next()))).centre,
    );
    const [x, y] = [meanAndSd(drawn.map((c) => c.x)), meanAndSd(drawn.map((c) => c.y))];
    const xy = drawn.reduce((s, c) => s + (c.x - x.mean) * (c.y - y.mean), 0) / (drawn.length - 1);
    expect((sd * Math.sqrt(v.xx)) / x.sd).toBeGreaterThan(0.96);
    expect((sd * Math.sqrt(v.xx)) / x.sd).toBeLessThan(1.04);
    expect((sd * Math.sqrt(v.yy)) / y.sd).toBeGreaterThan(0.96);
    expect((sd * Math.sqrt(v.yy)) / y.sd).toBeLessThan(1.04);
    expect(Math.abs(sd * sd * v.xy - xy)).toBeLessThan(0.05 * x.sd * y.sd);
  });

  const codes = (points: readonly Point<'coronal'>[]) => {
    const fit = fitCircle(points);
    return fit.ok ? 'ok' : fit.reason.code;
  };
  test('refuses two points, one place, a straight line and numbers that are none', () => {
    expect(codes([P(0, 0), P(1, 1)])).toBe('too-few-points');
    expect(codes([P(2, 2), P(2, 2), P(2, 2)])).toBe('points-on-a-line');
    expect(codes([P(0, 0), P(1, 2), P(2, 4), P(3, 6)])).toBe('points-on-a-line');
    expect(codes([P(0, 0), P(1, Number.NaN), P(2, 1)])).toBe('points-on-a-line');
  });
  test('never gives a NaN for finite points', () => {
    const any = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(any, any), { minLength: 3, maxLength: 9 }), (xy) => {
        const fit = fitCircle(xy.map(([x, y]) => P(x, y)));
        if (fit.ok)
          expect(Number.isFinite(fit.value.centre.x + fit.value.centre.y + fit.value.radius + fit.value.rms)).toBe(
            true,
          );
      }),
    );
  });
});
