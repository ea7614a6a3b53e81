import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { type Arc, arcLaxityMm, flexed } from './arc-laxity.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct } from './construct.ts';
import { describeConstruct } from './describe-construct.ts';
import { easyKnee, plainConstruct } from './easy-knee.ts';
import { effectOf, flexionLessExtensionMm } from './effect.ts';
import { slopeOpeningMm } from './laxity.ts';
import { bearingMm, distalSpaceMm, femurAnteriorMm, posteriorSpaceMm, tibialSpaceMm } from './seating.ts';

const catalogue = demoCatalogue();
const state: BoneState = { ...easyKnee, femurWidthMm: 68, flexionContactBehindMm: 15 };
const gaps = (change: Partial<Construct>) => {
  const effect = effectOf({ ...plainConstruct, ...change }, state, catalogue);
  return { extension: effect.extensionLaxityMm.medial, flexion: effect.flexionLaxityMm.medial };
};
const balanced = gaps({});
const moved = (change: Partial<Construct>) => {
  const after = gaps(change);
  return [after.extension - balanced.extension, after.flexion - balanced.flexion].map(
    (x) => Math.round(x * 1e9) / 1e9 + 0,
  );
};

describe('seating, by hand', () => {
  test('GAP-1 a condyle 14 mm off target with 9 mm of metal and an 4 mm augment is flush 1 mm proximal', () => {
    expect(distalSpaceMm(14, { thicknessMm: 9, augmentMm: 4 }, 1)).toBe(0);
    expect(distalSpaceMm(14, { thicknessMm: 9, augmentMm: 4 }, 0)).toBe(1);
    expect(distalSpaceMm(14, { thicknessMm: 9, augmentMm: 4 }, 3)).toBe(-2);
  });

  test('GAP-2 a femur 2 mm smaller than the bone sits 2 mm anterior; an offset of 2 mm brings it back', () => {
    expect(femurAnteriorMm(62, 60, 0)).toBe(2);
    expect(femurAnteriorMm(62, 60, 2)).toBe(0);
    expect(posteriorSpaceMm(13, { thicknessMm: 9, augmentMm: 4 }, 2)).toBe(-2);
  });

  test('GAP-3 a tray 10 mm below flush bone with a 10 mm block; bearing = tray + plate + insert', () => {
    expect(tibialSpaceMm(26, 10, -16)).toBe(0);
    expect(tibialSpaceMm(26, 10, -14)).toBe(2);
    expect(bearingMm(-16, 4.5, 11.5)).toBe(0);
  });

  test('GAP-12 the flange stands off what the shift exceeds the coupler by', () => {
    const shifted = { ...plainConstruct, posteriorShiftMm: 5, femoralOffset: 'EX-O4' };
    expect(effectOf(shifted, state, catalogue).flangeGapMm).toBe(1);
  });
});

describe('laxity', () => {
  test('GAP-4 GAP-5 everything on target is just taut at 0 and at 90 degrees', () => {
    expect(balanced).toEqual({ extension: 0, flexion: 0 });
    expect(flexionLessExtensionMm(effectOf(plainConstruct, state, catalogue))).toBe(0);
  });

  test('GAP-4 raising the joint line opens extension only; GAP-5 an anterior shift opens flexion only', () => {
    expect(moved({ femurProximalMm: 3 })).toEqual([3, 0]);
    expect(moved({ femurAnteriorMm: 3 })).toEqual([0, 3]);
  });

  test('GAP-6 slope: 15, 20 and 25 mm behind open 0.26, 0.35 and 0.44 mm for the first degree', () => {
    const opens = (mm: number) => slopeOpeningMm({ slopeDeg: 1, referenceSlopeDeg: 0, contactBehindMm: mm });
    expect([15, 20, 25].map((mm) => Number(opens(mm).toFixed(2)))).toEqual([0.26, 0.35, 0.44]);
    expect(moved({ slopeDeg: 3 })[0]).toBe(0);
    expect(moved({ slopeDeg: 3 })[1]).toBeCloseTo(15 * Math.tan((3 * Math.PI) / 180), 9);
  });

  test('GAP-7 bookkeeping: each lever by one millimetre moves the gaps as the table says', () => {
    expect(moved({ insert: 'EX-I4P13' })).toEqual([-1, -1]);
    // One millimetre of distal augment brings the flush femur, and with it the joint line, one distal.
    expect(moved({ femurProximalMm: -1 })).toEqual([-1, 0]);
    expect(moved({ femurProximalMm: 1 })).toEqual([1, 0]);
    expect(moved({ femurAnteriorMm: femurAnteriorMm(62, 63, 0) })).toEqual([0, -1]);
    expect(moved({ femurAnteriorMm: femurAnteriorMm(62, 62, 1) })).toEqual([0, -1]);
    expect(moved({ trayMm: -15 })).toEqual([-1, -1]);
    // A block alone supports: the gaps stay.
    expect(moved({ tibialAugments: { medial: 'EX-B4-5', lateral: null } })).toEqual([0, 0]);
  });

  test.each([
    ['both tight', { trayMm: -17 }, [1, 1]],
    ['both loose', { insert: 'EX-I4P14' }, [-2, -2]],
    ['tight in extension only', { femurProximalMm: 2 }, [2, 0]],
    ['loose in extension only', { femurProximalMm: -2 }, [-2, 0]],
    ['tight in flexion only', { femurAnteriorMm: 2 }, [0, 2]],
    ['loose in flexion only', { femurAnteriorMm: -2 }, [0, -2]],
    ['tight in extension, loose in flexion', { femurProximalMm: 2, femurAnteriorMm: -2 }, [2, -2]],
    ['loose in extension, tight in flexion', { femurProximalMm: -2, femurAnteriorMm: 2 }, [-2, 2]],
    ['balanced', {}, [0, 0]],
  ] as const)('GAP-8 nine cells, %s: its lever moves the gaps the right way', (_cell, lever, expected) => {
    expect(moved(lever)).toEqual([...expected]);
  });
});

describe('laxity through the arc', () => {
  const circle = (radius: number, at: { y: number; z: number }) =>
    Array.from({ length: 3600 }, (_, i) => {
      const t = (i * Math.PI) / 1800;
      return { y: at.y - radius * Math.sin(t), z: at.z - radius * Math.cos(t) };
    });
  const arc: Arc = {
    target: circle(25, { y: 0, z: 0 }),
    component: circle(25, { y: 5, z: 5 }),
    extensionMm: 0,
    flexionMm: 0,
    bearingMm: 5,
  };
  const at = (deg: number) => {
    const laxity = arcLaxityMm(arc, deg);
    if (!laxity.ok) throw new Error(laxity.reason.message);
    return laxity.value;
  };

  test('GAP-13 hand check: a line raised by 5 mm is balanced at 0 and 90 and slack by 2.07 mm at 45 degrees', () => {
    expect(at(0)).toBeCloseTo(0, 9);
    expect(at(90)).toBeCloseTo(0, 9);
    expect(at(45)).toBeCloseTo(5 * (Math.SQRT2 - 1), 9);
    expect(at(45).toFixed(2)).toBe('2.07');
    expect(Math.max(...Array.from({ length: 91 }, (_, deg) => at(deg)))).toBe(at(45));
  });

  test('GAP-13 a component flexed about the turning axis shows at t what it showed at t less its flexion', () => {
    const outline = [
      { y: -20, z: -5 },
      { y: -4, z: -26 },
      { y: 12, z: -20 },
    ];
    const turned = flexed(outline, 20, { y: 0, z: 0 });
    const laxity = (component: Arc['component'], deg: number) => {
      const value = arcLaxityMm({ ...arc, component, target: circle(25, { y: 0, z: 0 }) }, deg);
      return value.ok ? value.value : Number.NaN;
    };
    expect(laxity(turned, 70)).toBeCloseTo(laxity(outline, 50), 3);
  });

  test('GAP-13 angles outside the arc and empty outlines are refused', () => {
    expect(arcLaxityMm(arc, 120).ok).toBe(true);
    expect(arcLaxityMm(arc, 121).ok).toBe(false);
    expect(arcLaxityMm(arc, Number.NaN).ok).toBe(false);
    expect(arcLaxityMm({ ...arc, component: [] }, 10).ok).toBe(false);
    expect(arcLaxityMm({ ...arc, target: [] }, 10).ok).toBe(false);
  });
});

describe('parts list', () => {
  const full: Construct = {
    ...plainConstruct,
    distalAugments: { medial: 'EX-D4-8', lateral: 'EX-D4-8' },
    posteriorAugments: { medial: 'EX-P4-4', lateral: null },
    tibialAugments: { medial: 'EX-B4-10', lateral: null },
    femoralStem: 'EX-SP14-100',
    femoralOffset: 'EX-O4',
    tibialStem: 'EX-SC12-80',
    tibialCone: 'EX-CTM',
    femurProximalMm: 2,
    slopeDeg: 3,
  };

  test('equal augments are one line of two; the order is tibia, femur, insert', () => {
    const lines = describeConstruct(full, catalogue);
    expect(lines.map((l) => [l.ref, l.amount])).toEqual([
      ['EX-T4', 1],
      ['EX-B4-10', 1],
      ['EX-CTM', 1],
      ['EX-SC12-80', 1],
      ['EX-F4R', 1],
      ['EX-D4-8', 2],
      ['EX-P4-4', 1],
      ['EX-O4', 1],
      ['EX-SP14-100', 1],
      ['EX-I4P12', 1],
    ]);
    expect(lines[1]?.where).toBe('under the tray, medial');
  });

  test('a part of another catalogue is a bug, and says which', () => {
    expect(() => describeConstruct({ ...full, tray: 'ZZ' }, catalogue)).toThrow('ZZ');
  });

  test('GAP-4 GAP-5 laxity is linear in every lever: finite in, finite out', () => {
    const mm = fc.double({ min: -30, max: 30, noNaN: true });
    fc.assert(
      fc.property(mm, mm, mm, (j, q, u) => {
        const effect = effectOf(
          { ...plainConstruct, femurProximalMm: j, femurAnteriorMm: q, trayMm: u },
          state,
          catalogue,
        );
        expect(effect.extensionLaxityMm.medial).toBeCloseTo(j - (u + 16), 9);
        expect(effect.flexionLaxityMm.lateral).toBeCloseTo(q - (u + 16), 9);
      }),
    );
  });
});
