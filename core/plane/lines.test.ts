import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { angleFromTo, direction, directionDeg, normalOf } from './direction.ts';
import { foot, intersection, type Line, lineThrough, signedDistance } from './line.ts';
import { cross, distance, dot, type Point, point } from './point.ts';
import { commonTangent } from './tangent.ts';

const P = (x: number, y: number) => point('coronal', x, y);
const given = <T>(o: { ok: true; value: T } | { ok: false; reason: { code: string } }): T => {
  if (!o.ok) throw new Error(o.reason.code);
  return o.value;
};
const through = (a: Point<'coronal'>, b: Point<'coronal'>): Line<'coronal'> => given(lineThrough(a, b));
const coordinate = fc.double({ min: -1000, max: 1000, noNaN: true });
const place = fc.tuple(coordinate, coordinate).map(([x, y]) => P(x, y));
const turn = fc.double({ min: -180, max: 180, noNaN: true });
const turned = (p: Point<'coronal'>, deg: number) => {
  const a = (deg * Math.PI) / 180;
  return P(p.x * Math.cos(a) - p.y * Math.sin(a), p.x * Math.sin(a) + p.y * Math.cos(a));
};

describe('direction', () => {
  test('two points in one place have none', () => {
    const none = direction(P(3, 4), P(3, 4));
    expect(none.ok ? '' : none.reason.code).toBe('line-has-no-length');
  });
  test('a coordinate that is no number gives no direction, and no NaN', () => {
    expect(direction(P(Number.NaN, 0), P(1, 1)).ok).toBe(false);
    expect(direction(P(0, 0), P(Number.POSITIVE_INFINITY, 1)).ok).toBe(false);
  });
  test('is exact near 0 and 180 degrees, where an arc cosine loses digits', () => {
    const along = given(direction(P(0, 0), P(1, 0)));
    const tiny = given(direction(P(0, 0), P(1, 1e-9)));
    expect(angleFromTo(along, tiny)).toBeCloseTo((1e-9 * 180) / Math.PI, 16);
    expect(angleFromTo(along, given(direction(P(0, 0), P(-1, 0))))).toBe(180);
  });
  test('angles from one direction to another are opposite the other way, and turn with nothing', () => {
    fc.assert(
      fc.property(turn, turn, turn, (a, b, c) => {
        const unit = (deg: number) => given(direction(P(0, 0), turned(P(1, 0), deg)));
        const angle = angleFromTo(unit(a), unit(b));
        const again = angleFromTo(unit(a + c), unit(b + c));
        expect(Math.abs(Math.sin(((angle - again) * Math.PI) / 360))).toBeLessThan(1e-9);
        expect(Math.abs(Math.sin(((angle + angleFromTo(unit(b), unit(a))) * Math.PI) / 360))).toBeLessThan(1e-9);
      }),
    );
  });
  test('the normal lies 90 degrees counter-clockwise', () => {
    const d = given(direction(P(0, 0), P(3, 4)));
    expect(angleFromTo(d, normalOf(d))).toBeCloseTo(90, 12);
    expect(directionDeg(d)).toBeCloseTo(53.13010235415598, 12);
  });
});

describe('line', () => {
  test('parallel lines do not cross', () => {
    const a = through(P(0, 0), P(1, 1));
    const same = intersection(a, through(P(5, 0), P(6, 1)));
    expect(same.ok ? '' : same.reason.code).toBe('lines-are-parallel');
    expect(intersection(a, a).ok).toBe(false);
  });
  test('the crossing lies on both lines', () => {
    fc.assert(
      fc.property(place, place, place, place, (a, b, c, d) => {
        fc.pre(distance(a, b) > 1 && distance(c, d) > 1);
        const [l, m] = [through(a, b), through(c, d)];
        fc.pre(Math.abs(cross(l.along, m.along)) > 1e-3);
        const at = given(intersection(l, m));
        expect(Math.abs(signedDistance(at, l))).toBeLessThan(1e-6);
        expect(Math.abs(signedDistance(at, m))).toBeLessThan(1e-6);
      }),
    );
  });
  test('the foot lies on the line, square below the point, at the signed distance', () => {
    fc.assert(
      fc.property(place, place, place, (p, a, b) => {
        fc.pre(distance(a, b) > 1);
        const l = through(a, b);
        const f = foot(p, l);
        expect(Math.abs(signedDistance(f, l))).toBeLessThan(1e-9 * 1000);
        expect(Math.abs(dot(P(p.x - f.x, p.y - f.y), l.along))).toBeLessThan(1e-6);
        expect(distance(p, f)).toBeCloseTo(Math.abs(signedDistance(p, l)), 6);
      }),
    );
  });
  test('left of the line is positive', () => expect(signedDistance(P(5, 2), through(P(0, 0), P(1, 0)))).toBe(2));
});

describe('common tangent', () => {
  test('touches both circles, both on its left', () => {
    const radius = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(place, place, fc.tuple(radius, radius), (a, b, [ra, rb]) => {
        fc.pre(distance(a, b) > Math.abs(ra - rb) + 1);
        for (const side of ['left', 'right'] as const) {
          const line = given(commonTangent({ centre: a, radius: ra }, { centre: b, radius: rb }, side));
          const sign = side === 'left' ? 1 : -1;
          expect(sign * signedDistance(a, line)).toBeCloseTo(ra, 6);
          expect(sign * signedDistance(b, line)).toBeCloseTo(rb, 6);
          expect(dot(line.along, P(b.x - a.x, b.y - a.y))).toBeGreaterThan(0);
        }
      }),
    );
  });
  test('refuses one centre, and a circle inside the other', () => {
    const big = { centre: P(0, 0), radius: 10 };
    const same = commonTangent(big, { centre: P(0, 0), radius: 3 }, 'left');
    expect(same.ok ? '' : same.reason.code).toBe('line-has-no-length');
    const inside = commonTangent(big, { centre: P(2, 0), radius: 3 }, 'left');
    expect(inside.ok ? '' : inside.reason.code).toBe('circle-inside-circle');
  });
});
