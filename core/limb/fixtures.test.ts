import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { type KnownPoints, knownMarks, knownScale, onCircle } from '../landmarks/known-marks.ts';
import type { Side } from '../landmarks/side.ts';
import type { ColumnDirection } from '../landmarks/view.ts';
import { ALIGNMENT_CHOICES } from './alignment-targets.ts';
import { arithmeticHka, CPAK_NAMES, cpakType, jointLineObliquity } from './cpak.ts';
import { identityResidual } from './identity.ts';
import { lineOf as line, measuredValue as value } from './lines-of-a-knee.ts';
import { measureCase, measureKnee } from './measure-knee.ts';

// Fixture C1 of the geometry reference 10.2: H(-12,440) K(0,0) A(-25,-370); Fm(-35,-8) Fl(35,-5); Tm(-36,-11.5) Tl(36,-10).
const C1: KnownPoints = {
  'femoral-head': onCircle([-12, 440], 24, [10, 55, 100, 145, 190, 235, 280, 325]),
  'femoral-notch': [0, 0],
  'tibial-spines': [0, 0],
  'talus-medial': [-41, -370],
  'talus-lateral': [-9, -370],
  'medial-condyle-distal': [-35, -8],
  'lateral-condyle-distal': [35, -5],
  'medial-plateau': [-36, -11.5],
  'lateral-plateau': [36, -10],
};

// Fixture L1: patella of a normal knee; S1: slope of the same. PL runs through An(22,2) and Po(-24,-2.03).
const L1: KnownPoints = {
  'patella-superior-pole': [48, 64],
  'patella-inferior-pole': [42, 22],
  'patella-articular-superior': [36, 58],
  'patella-articular-inferior': [34.5, 26],
  'tibial-tubercle': [38, -14],
  'plateau-anterior': [22, 2],
  'plateau-posterior': [-24, -2.03],
  // Cortices about the axis points (17,-50) and (14,-150).
  'tibial-sagittal-proximal-anterior': [34, -50],
  'tibial-sagittal-proximal-posterior': [0, -50],
  'tibial-sagittal-distal-anterior': [27, -150],
  'tibial-sagittal-distal-posterior': [1, -150],
};

interface Layout {
  readonly side?: Side;
  readonly columns?: ColumnDirection;
  readonly mmPerPx?: { readonly x: number; readonly y: number };
  readonly state?: KneeEvidence['state'];
}

const SQUARE = { x: 0.14, y: 0.14 };

function longLeg(points: KnownPoints, layout: Layout = {}): KneeEvidence {
  const { side = 'left', columns = 'patient-left', mmPerPx = SQUARE, state = 'native' } = layout;
  return {
    side,
    state,
    films: [{ id: 'll', view: 'long-leg', side: 'both', role: 'present', standing: true, columnsTowards: columns }],
    marks: knownMarks(points, { film: 'll', side, columnsTowards: columns, mmPerPx, originPx: [900, 3500] }),
    calibrations: new Map([['ll', knownScale(mmPerPx)]]),
  };
}

function lateral(points: KnownPoints, layout: Layout = {}): KneeEvidence {
  const { side = 'left', columns = 'anterior', mmPerPx = SQUARE, state = 'native' } = layout;
  return {
    side,
    state,
    films: [{ id: 'lat', view: 'lateral', side, role: 'present', columnsTowards: columns }],
    marks: knownMarks(points, { film: 'lat', side, columnsTowards: columns, mmPerPx, originPx: [900, 1400] }),
    calibrations: new Map([['lat', knownScale(mmPerPx)]]),
  };
}

// Expected values: geometry reference, section 10.2, fixture C1.
describe('fixture C1, native varus', () => {
  const lines = measureKnee(longLeg(C1));
  test('LIMB-1 HKA of fixture C1 is -5.4277, medial angle 174.5723', () => {
    expect(value(lines, 'hka')).toBeCloseTo(-5.4277, 4);
    expect(180 + value(lines, 'hka')).toBeCloseTo(174.5723, 4);
  });
  test('LIMB-3 mLDFA of fixture C1 is 89.1082', () => expect(value(lines, 'mldfa')).toBeCloseTo(89.1082, 4));
  test('LIMB-4 MPTA of fixture C1 is 84.9410', () => expect(value(lines, 'mpta')).toBeCloseTo(84.941, 4));
  test('LIMB-5 JLCA of fixture C1 is +1.2605, open laterally', () =>
    expect(value(lines, 'jlca')).toBeCloseTo(1.2605, 4));
  test('LIMB-8 MAD of fixture C1 is 19.0593 mm, the knee lateral of the line', () =>
    expect(value(lines, 'mad')).toBeCloseTo(19.0593, 4));
  test('LIMB-11 fixture C1: aHKA -4.1671, JLO 174.0492, CPAK I', () => {
    expect(value(lines, 'arithmetic-hka')).toBeCloseTo(-4.1671, 4);
    expect(value(lines, 'joint-line-obliquity')).toBeCloseTo(174.0492, 4);
    expect(value(lines, 'cpak')).toBe(1);
    expect(line(lines, 'cpak').variant).toContain('I: varus, apex distal');
  });
  test('LIMB-18 the identity closes on fixture C1', () => {
    const [hka, mpta, mldfa, jlca] = ['hka', 'mpta', 'mldfa', 'jlca'].map((id) => value(lines, id)) as [
      number,
      number,
      number,
      number,
    ];
    expect(Math.abs(identityResidual({ hka, mpta, mldfa, jlca }))).toBeLessThan(1e-9);
    expect(line(lines, 'hka').flags).toEqual([]);
  });
  test('LIMB-10 lengths of fixture C1: femur and tibia by Pythagoras', () => {
    expect(value(lines, 'femoral-length')).toBeCloseTo(Math.hypot(12, 440), 6);
    expect(value(lines, 'tibial-length')).toBeCloseTo(Math.hypot(25, 370), 6);
    expect(value(lines, 'limb-length')).toBeCloseTo(Math.hypot(13, 810), 6);
  });
});

describe('LM-1 fixture C3, the mirror', () => {
  const ids = ['hka', 'mldfa', 'mpta', 'jlca', 'mad', 'cpak', 'femoral-length'];
  const left = measureKnee(longLeg(C1));
  test.each([
    ['right', 'patient-left'],
    ['right', 'patient-right'],
    ['left', 'patient-right'],
  ] as const)('a %s knee with columns towards %s gives the same values', (side, columns) => {
    const other = measureKnee(longLeg(C1, { side, columns }));
    for (const id of ids) expect(value(other, id)).toBeCloseTo(value(left, id), 9);
  });
  test('pixels that are not square change nothing', () => {
    const other = measureKnee(longLeg(C1, { mmPerPx: { x: 0.2, y: 0.1 } }));
    for (const id of ids) expect(value(other, id)).toBeCloseTo(value(left, id), 8);
  });
  test('LM-2 a lateral film that faces the other way gives the same slope', () => {
    const facing = measureKnee(lateral(L1, { columns: 'posterior', side: 'right' }));
    expect(value(facing, 'tibial-slope')).toBeCloseTo(6.7252, 4);
  });
});

// Expected values: geometry reference, section 10.2, fixtures L1 and S1.
describe('fixtures L1 and S1', () => {
  const lines = measureKnee(lateral(L1));
  test('PAT-1 Insall-Salvati of fixture L1 is .8537', () =>
    expect(value(lines, 'insall-salvati')).toBeCloseTo(0.8537, 4));
  test('PAT-2 modified Insall-Salvati of fixture L1 is 1.2534', () =>
    // The reference takes the tendon from the articular margin: d(AI, T) / d(AS, AI).
    expect(value(lines, 'modified-insall-salvati')).toBeCloseTo(1.2534, 4));
  test('PAT-3 Blackburne-Peel of fixture L1 is .7123', () =>
    expect(value(lines, 'blackburne-peel')).toBeCloseTo(0.7123, 4));
  test('PAT-4 Caton-Deschamps of fixture L1 is .8447', () =>
    expect(value(lines, 'caton-deschamps')).toBeCloseTo(0.8447, 4));
  test('LIMB-14 slope of fixture S1 is 6.7252 to the axis of both cortices', () => {
    expect(value(lines, 'tibial-slope')).toBeCloseTo(6.7252, 4);
    expect(line(lines, 'tibial-slope').variant).toContain('TPAA');
  });
});

describe('LIMB-18 identity', () => {
  const axis = fc.double({ min: -1, max: 1, noNaN: true });
  test('closes on random limbs, femoral and tibial knee centre apart', () => {
    fc.assert(
      fc.property(fc.array(axis, { minLength: 9, maxLength: 9 }), (j) => {
        const at = (i: number) => j[i] ?? 0;
        const lines = measureKnee(
          longLeg({
            ...C1,
            'femoral-head': onCircle([-12 + 60 * at(0), 440], 24, [0, 90, 180, 270]),
            'femoral-notch': [8 * at(1), 4 * at(2)],
            'tibial-spines': [8 * at(3), 4 * at(4)],
            'talus-medial': [-41 + 40 * at(5), -370],
            'talus-lateral': [-9 + 40 * at(5), -370],
            'medial-condyle-distal': [-35, -8 + 8 * at(6)],
            'lateral-plateau': [36, -10 + 8 * at(7)],
          }),
        );
        const [hka, mpta, mldfa, jlca] = ['hka', 'mpta', 'mldfa', 'jlca'].map((id) => value(lines, id)) as [
          number,
          number,
          number,
          number,
        ];
        expect(Math.abs(identityResidual({ hka, mpta, mldfa, jlca }))).toBeLessThan(1e-9);
        expect(arithmeticHka(mpta, mldfa)).toBeCloseTo(hka + jlca, 9);
      }),
      { numRuns: 200 },
    );
  });
});

// Geometry reference, section 10.1: published values that must close.
describe('published identities', () => {
  test('LIMB-11 P1: MPTA 85.8 and LDFA 87.6 give aHKA -1.8, JLO 173.4, type II', () => {
    expect(arithmeticHka(85.8, 87.6)).toBeCloseTo(-1.8, 9);
    expect(jointLineObliquity(85.8, 87.6)).toBeCloseTo(173.4, 9);
    expect(CPAK_NAMES[cpakType(-1.8, 173.4) - 1]).toBe('II: neutral, apex distal');
  });
  test('LIMB-18 P4: MPTA 86.1, mLDFA 85.6, HKA -0.7 imply JLCA +1.2 (Jamali 2017)', () =>
    expect(identityResidual({ hka: -0.7, mpta: 86.1, mldfa: 85.6, jlca: 1.2 })).toBeCloseTo(0, 9));
  test('LIMB-18 P5: aHKA -0.87, HKA -1.33 imply JLCA +0.46 (MacDessi 2020)', () =>
    expect(identityResidual({ hka: -1.33, mpta: 87.13, mldfa: 88, jlca: 0.46 })).toBeCloseTo(0, 9));
  test('LIMB-11 limits of CPAK count as neutral', () => {
    expect([cpakType(-2, 177), cpakType(2, 183), cpakType(-2.01, 176.99), cpakType(2.01, 183.01)]).toEqual([
      5, 5, 1, 9,
    ]);
  });
});

test('LIMB-20 constitutional alignment stays within 5 degrees of varus together', () => {
  for (const c of ALIGNMENT_CHOICES)
    if (c.togetherAtMostDeg) {
      expect(Math.abs(c.femurDeg + c.tibiaDeg)).toBeLessThanOrEqual(c.togetherAtMostDeg[1]);
      expect(Math.abs(c.femurRangeDeg[0] + c.tibiaRangeDeg[0])).toBeLessThanOrEqual(c.togetherAtMostDeg[1]);
    }
  expect(ALIGNMENT_CHOICES.map((c) => c.id)).toEqual(['neutral', 'constitutional']);
});

test('same input, same bytes', () => {
  const evidence = longLeg(C1);
  expect(JSON.stringify(measureCase(evidence))).toBe(JSON.stringify(measureCase(evidence)));
});
