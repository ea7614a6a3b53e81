import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knownCase } from '../landmarks/known-knee.ts';
import { point } from '../plane/point.ts';
import { axisDeviation, weightBearingRatio } from './axis-deviation.ts';
import { hka } from './hka.ts';
import { flagsOf, lineOf, measuredValue } from './lines-of-a-knee.ts';
import { measureCase } from './measure-knee.ts';

const lines = measureCase(knownCase());
const P = (x: number, y: number) => point('coronal', x, y);
const deg = (rad: number) => (rad * 180) / Math.PI;

describe('the invented knee, worked out by hand', () => {
  test('LIMB-6 aLDFA: shaft middles (9, 100) and (20, 220), line level', () =>
    expect(measuredValue(lines, 'aldfa', 'right')).toBeCloseTo(deg(Math.atan2(120, 11)), 9));
  test('LIMB-7 mLDFA is aLDFA plus the valgus cut angle, on both knees', () => {
    for (const side of ['right', 'left'] as const)
      expect(measuredValue(lines, 'aldfa', side) + measuredValue(lines, 'valgus-cut-angle', side)).toBeCloseTo(
        measuredValue(lines, 'mldfa', side),
        9,
      );
    expect(measuredValue(lines, 'valgus-cut-angle', 'right')).toBeCloseTo(deg(Math.atan2(11, 120)), 9);
  });
  test('LIMB-9 the weight-bearing line crosses the middle of the tray', () =>
    expect(measuredValue(lines, 'weight-bearing-ratio', 'right')).toBeCloseTo(50, 9));
  test('LIMB-12 a component square to its axis is at 0, a tray that falls medially in varus (-)', () => {
    expect(measuredValue(lines, 'femoral-component-coronal', 'right')).toBeCloseTo(0, 9);
    expect(measuredValue(lines, 'tray-coronal', 'right')).toBeCloseTo(-deg(Math.atan2(11.83 - 8.17, 70)), 9);
  });
  test('LIMB-12 component angles are not claimed of the native knee', () =>
    expect(lines.some((m) => m.side === 'left' && m.id.startsWith('femoral-component'))).toBe(false));
  test('LIMB-13 widths', () => {
    expect(measuredValue(lines, 'femoral-component-width', 'right')).toBeCloseTo(70, 9);
    expect(measuredValue(lines, 'epicondylar-width', 'right')).toBeCloseTo(Math.hypot(82, 3.5), 9);
    expect(measuredValue(lines, 'tray-width', 'right')).toBeCloseTo(Math.hypot(70, 3.66), 9);
    expect(measuredValue(lines, 'femoral-bone-width', 'right')).toBeCloseTo(72, 9);
    expect(measuredValue(lines, 'tibial-bone-width', 'right')).toBeCloseTo(Math.hypot(74, 3), 9);
  });
  test('LIMB-2 with components in place the middle of the component (F1) and of the tray (T1) are used, and named', () =>
    expect(lineOf(lines, 'hka', 'right').variant).toBe('F1: middle of the femoral component; T1: middle of the tray'));
  test('LIMB-2 options in agreement raise no flag', () =>
    expect(flagsOf(lines, 'hka', 'right')).not.toContain('knee-centres-apart'));
});

describe('weight-bearing line', () => {
  // Geometry reference 1.3: MAD = -HKA (pi/180) f t / (f + t); 3.51, 3.16, 3.81 mm a degree.
  test.each([
    [440, 370, 3.51],
    [400, 330, 3.16],
    [480, 400, 3.81],
  ])('LIMB-8 femur %s, tibia %s: %s mm a degree of varus', (f, t, perDegree) => {
    const varus = {
      hip: P(-f * Math.sin(0.00436332), f * Math.cos(0.00436332)),
      ankle: P(-t * Math.sin(0.01308997), -t * Math.cos(0.01308997)),
    };
    const angle = hka({ ...varus, femoralKnee: P(0, 0), tibialKnee: P(0, 0) });
    const mad = axisDeviation(varus, P(0, 0));
    if (!angle.ok || !mad.ok) throw new Error('measured');
    expect(angle.value).toBeCloseTo(-1, 4);
    expect(mad.value).toBeCloseTo(perDegree, 2);
  });
  test('LIMB-9 0 at the medial edge, 100 at the lateral, beyond when it passes beside the knee', () => {
    const ratio = (x: number) => weightBearingRatio({ hip: P(x, 400), ankle: P(x, -400) }, P(-35, 0), P(35, 0));
    const values = [-35, 0, 35, -49].map((x) => {
      const r = ratio(x);
      return r.ok ? r.value : Number.NaN;
    });
    expect(values).toEqual([0, 50, 100, -20]);
  });
  test('LIMB-9 turned limbs give the same share', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -30, max: 30, noNaN: true }),
        (a, x) => {
          const turn = (px: number, py: number) =>
            P(px * Math.cos(a) - py * Math.sin(a), px * Math.sin(a) + py * Math.cos(a));
          const r = weightBearingRatio({ hip: turn(x, 400), ankle: turn(x, -400) }, turn(-35, 0), turn(35, 0));
          if (!r.ok) throw new Error(r.reason.code);
          expect(r.value).toBeCloseTo(50 + (x / 70) * 100, 8);
        },
      ),
    );
  });
  test('hip and ankle in one place, or a plateau without width, are refused', () => {
    expect(axisDeviation({ hip: P(1, 1), ankle: P(1, 1) }, P(0, 0)).ok).toBe(false);
    expect(weightBearingRatio({ hip: P(0, 1), ankle: P(0, -1) }, P(2, 0), P(2, 0)).ok).toBe(false);
    expect(weightBearingRatio({ hip: P(0, 1), ankle: P(0, -1) }, P(0, 3), P(0, 4)).ok).toBe(false);
  });
});

test('LIMB-1 an axis without length is refused', () => {
  const out = hka({ hip: P(0, 0), femoralKnee: P(0, 0), tibialKnee: P(0, 0), ankle: P(0, -370) });
  expect(out.ok ? '' : out.reason.code).toBe('line-has-no-length');
});

test('LIMB-2 options more than 3 mm apart across the limb are flagged with their distance', () => {
  const evidence = knownCase();
  const moved = evidence.marks.map((m) =>
    m.landmark === 'femoral-notch' && m.film === 'long' && m.side === 'right'
      ? { ...m, points: m.points.map((p) => ({ x: p.x - 6 / 0.14, y: p.y })) }
      : m,
  );
  const flagged = measureCase({ ...evidence, marks: moved });
  expect(flagsOf(flagged, 'hka', 'right')).toContain('knee-centres-apart');
  expect(lineOf(flagged, 'hka', 'right').flags.find((f) => f.code === 'knee-centres-apart')?.message).toContain(
    '6.5 mm',
  );
});
