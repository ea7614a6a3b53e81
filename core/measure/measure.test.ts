import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toDeg, toRad, wrap180, wrap360 } from './angle.ts';
import { combine } from './combine.ts';
import { finite } from './finite.ts';
import { meanAndSd, normalDraws } from './normal-draws.ts';
import { cannot, ok } from './outcome.ts';
import { interval95, Z95 } from './quantity.ts';

describe('angles', () => {
  test('180 stays 180, -180 becomes 180, 360 becomes 0', () => {
    expect([wrap180(180), wrap180(-180), wrap180(540), wrap180(-190)]).toEqual([180, 180, 180, 170]);
    expect([wrap360(360), wrap360(-10), wrap360(725)]).toEqual([0, 350, 5]);
  });
  test('wrapping keeps the direction and the range', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (deg) => {
        const [a, b] = [wrap180(deg), wrap360(deg)];
        expect(a > -180 && a <= 180 && b >= 0 && b < 360).toBe(true);
        expect(Math.abs(Math.sin(toRad(a - deg) / 2))).toBeLessThan(1e-7);
        expect(Math.abs(Math.sin(toRad(b - deg) / 2))).toBeLessThan(1e-7);
        expect(toDeg(toRad(deg))).toBeCloseTo(deg, 6);
      }),
    );
  });
});

describe('finite', () => {
  test.each([Number.NaN, Number.POSITIVE_INFINITY, '12', null, undefined, {}])(
    '%s is refused, naming the field',
    (v) => {
      const out = finite(v, 'implants.insertMm');
      expect(out.ok).toBe(false);
      if (!out.ok) expect([out.reason.code, out.reason.field]).toEqual(['not-a-finite-number', 'implants.insertMm']);
    },
  );
  test('a number comes back as it is', () => expect(finite(-0.5, 'x')).toEqual(ok(-0.5)));
});

describe('combine', () => {
  const no = (code: string) => cannot({ code, message: code });
  test('passes on the first reason', () => {
    const out = combine(no('first'), no('second'), () => ok(1));
    expect(out.ok ? '' : out.reason.code).toBe('first');
    const late = combine(ok(1), no('second'), () => ok(1));
    expect(late.ok ? '' : late.reason.code).toBe('second');
  });
  test('goes on with both values', () => expect(combine(ok(2), ok(3), (a, b) => ok(a * b))).toEqual(ok(6)));
});

describe('interval', () => {
  test('95 % of a normal spread lie within 1.96 of it either way', () => {
    expect(Z95).toBeCloseTo(1.959964, 6);
    expect(interval95({ value: 10, unit: 'mm', sd: 2 })).toEqual([10 - 2 * Z95, 10 + 2 * Z95]);
    expect(interval95({ value: 10, unit: 'mm', sd: null })).toBeNull();
  });
});

describe('seeded normal draws', () => {
  const draw = (seed: number, n: number) => {
    const next = normalDraws(seed);
    return Array.from({ length: n }, next);
  };
  test('the same seed gives the same numbers, another seed others', () => {
    expect(draw(7, 20)).toEqual(draw(7, 20));
    expect(draw(7, 20)).not.toEqual(draw(8, 20));
  });
  test('mean 0, spread 1, 95 % within 1.96', () => {
    const sample = draw(1, 50_000);
    const { mean, sd } = meanAndSd(sample);
    expect(Math.abs(mean)).toBeLessThan(0.02);
    expect(Math.abs(sd - 1)).toBeLessThan(0.02);
    const inside = sample.filter((z) => Math.abs(z) < Z95).length / sample.length;
    expect(Math.abs(inside - 0.95)).toBeLessThan(0.005);
  });
});
