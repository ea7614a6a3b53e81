import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { knownCase } from '../landmarks/known-knee.ts';
import type { Mark } from '../landmarks/mark.ts';
import { direction } from '../plane/direction.ts';
import { lineThrough } from '../plane/line.ts';
import { point } from '../plane/point.ts';
import { totalValgus } from './component-angles.ts';
import { flagsOf, lineOf, measuredValue } from './lines-of-a-knee.ts';
import { measureKnee } from './measure-knee.ts';
import { overhang, translation } from './overhang.ts';
import { patellarTilt } from './patella-skyline.ts';

const evidence = knownCase();
const lines = measureKnee(evidence);
const value = (id: string, of = lines) => measuredValue(of, id);
const MM = 0.14;
const right = (v: number) => (Math.atan(v) * 180) / Math.PI;

/** The case with the marks of one landmark moved on one film, mm in the patient: to lateral or forward, and up. */
const moved = (landmark: Mark['landmark'], film: string, [along, up]: readonly [number, number]): KneeEvidence => {
  // Of a right knee, lateral lies towards the viewer's left; the lateral film faces forward to the right.
  const sign = film === 'lat' ? 1 : -1;
  const shift = (m: Mark): Mark => ({
    ...m,
    points: m.points.map((p) => ({ x: p.x + (sign * along) / MM, y: p.y - up / MM })),
  });
  return {
    ...evidence,
    marks: evidence.marks.map((m) => (m.landmark === landmark && m.film === film && m.side === 'right' ? shift(m) : m)),
  };
};

describe('LIMB-24 film angles of the components (Ewald 1989)', () => {
  test('alpha: the shaft leans laterally by atan(11 / 120), so that the medial angle is 95.2 degrees', () =>
    expect(value('component-alpha')).toBeCloseTo(90 + right(11 / 120), 6));
  test('beta: the tray stands 3 degrees in varus of a straight shaft', () =>
    expect(value('component-beta')).toBeCloseTo(90 - right(3.66 / 70), 6));
  test('alpha is 180 - aLDFA, beta the tray angle + 90 against the same shaft', () => {
    expect(value('component-alpha')).toBeCloseTo(180 - value('aldfa'), 9);
    expect(value('component-total-valgus')).toBeCloseTo(
      totalValgus(value('component-alpha'), value('component-beta')),
      9,
    );
  });
  test('worked by hand: alpha 97.2 and beta 88.6 make 5.8 degrees of valgus together', () =>
    expect(totalValgus(97.2, 88.6)).toBeCloseTo(5.8, 12));
  test('gamma: flexed by 2 degrees; delta: 90 less 3 degrees of slope', () => {
    expect(value('component-gamma')).toBeCloseTo(right(0.698 / 20), 3);
    expect(value('component-delta')).toBeCloseTo(90 - right(2.516 / 48), 3);
  });
  test('each carries a spread, and names its axis', () => {
    for (const id of ['alpha', 'beta', 'total-valgus', 'gamma', 'delta']) {
      const m = lineOf(lines, `component-${id}`);
      expect(m.sd).toBeGreaterThan(0.2);
      expect(m.variant).toMatch(/^ax[ei]s/);
    }
  });
});

describe('LIMB-25 translation and LIMB-26 overhang', () => {
  test('known edges: femur flush to 1 mm inside on both sides, tray 2 mm short of the bone on both', () => {
    expect(value('femoral-overhang-medial')).toBeCloseTo(-1, 6);
    expect(value('femoral-overhang-lateral')).toBeCloseTo(-1, 6);
    expect(value('femoral-component-translation')).toBeCloseTo(0, 6);
    expect(value('tray-overhang-medial')).toBeLessThan(-1.5);
    expect(value('tray-overhang-lateral')).toBeLessThan(-1.5);
  });
  test('from the side: 1.5 mm over the front, 1 mm short behind', () => {
    expect(value('tray-overhang-anterior')).toBeCloseTo(1.5, 0);
    expect(value('tray-overhang-posterior')).toBeCloseTo(-1, 0);
    expect(value('tray-translation-sagittal')).toBeCloseTo(1.25, 0);
  });
  test('an edge moved outwards overhangs by as much, the middle goes by half of it', () => {
    const after = measureKnee(moved('femoral-component-lateral-edge', 'ap', [5, 0]));
    // The long-leg film and the short one carry the same scale; the first in the order of views is measured.
    const long = measureKnee(moved('femoral-component-lateral-edge', 'long', [5, 0]));
    expect(value('femoral-overhang-lateral', long)).toBeCloseTo(4, 6);
    expect(value('femoral-component-translation', long)).toBeCloseTo(2.5, 6);
    expect(value('femoral-overhang-lateral', after)).toBeCloseTo(-1, 6);
  });
  test('the flange stands 1.5 mm before the cortex; 3 mm further back it notches it by 1.5', () => {
    expect(value('femoral-flange-gap')).toBeCloseTo(1.5, 6);
    expect(value('femoral-flange-gap', measureKnee(moved('femoral-flange', 'lat', [-3, 0])))).toBeCloseTo(-1.5, 6);
  });
  test('overhang of both ends together is component less bone, and half their difference is the translation', () => {
    const x = fc.double({ min: -60, max: 60, noNaN: true });
    fc.assert(
      fc.property(x, x, x, x, (a, b, c, d) => {
        const at = (v: number) => point('coronal', v, 0);
        const ends = { partLow: at(a), partHigh: at(b), boneLow: at(c), boneHigh: at(d) };
        const along = { frame: 'coronal', x: 1, y: 0 } as const;
        const [low, high] = [overhang(ends, along, 'low'), overhang(ends, along, 'high')];
        expect(low + high).toBeCloseTo(b - a - (d - c), 9);
        expect((high - low) / 2).toBeCloseTo(translation(ends, along), 9);
      }),
    );
  });
});

describe('LIMB-27 where a component stands along its bone', () => {
  test('tray edges over the tip of the fibula: medial 4.17, lateral 7.83, middle 6.0 mm', () => {
    expect(value('tray-height-medial')).toBeCloseTo(16 - 11.83, 1);
    expect(value('tray-height-lateral')).toBeCloseTo(16 - 8.17, 1);
    expect(value('tray-height')).toBeCloseTo(6, 1);
  });
  test('femur: against the adductor tubercle, else the epicondyles, named; proximal counts up', () => {
    expect(lineOf(lines, 'femoral-component-height').variant).toBe('over: adductor tubercle');
    expect(value('femoral-component-height')).toBeLessThan(-35);
    const without = { ...evidence, marks: evidence.marks.filter((m) => m.landmark !== 'adductor-tubercle') };
    expect(lineOf(measureKnee(without), 'femoral-component-height').variant).toContain('lateral epicondyle');
  });
  test('a tray that sinks by 3 mm loses 3 mm', () => {
    const [medial, lateral] = (['tray-medial-edge', 'tray-lateral-edge'] as const).map(
      (id) => moved(id, 'long', [0, -3]).marks,
    );
    const after = {
      ...evidence,
      marks: evidence.marks.map((m, i) =>
        m.landmark === 'tray-medial-edge'
          ? (medial?.[i] ?? m)
          : m.landmark === 'tray-lateral-edge'
            ? (lateral?.[i] ?? m)
            : m,
      ),
    };
    expect(value('tray-height', measureKnee(after)) - value('tray-height')).toBeCloseTo(-3, 2);
  });
});

describe('the patella on the skyline', () => {
  test('LIMB-28 tilted laterally by 6 degrees', () => expect(value('patellar-tilt')).toBeCloseTo(6, 1));
  test('LIMB-29 shifted laterally by 4 mm', () => expect(value('patellar-shift')).toBeCloseTo(4, 3));
  test('LIMB-30 14 mm of bone are left', () => expect(value('patellar-thickness')).toBeCloseTo(14, 1));
  test('LM-8 LIMB-28 shown with the patella below it is tilted alike', () => {
    const upside = {
      ...evidence,
      marks: evidence.marks.map((m) =>
        m.film === 'sky' ? { ...m, points: m.points.map((p) => ({ x: p.x, y: 1400 - p.y })) } : m,
      ),
    };
    const after = measureKnee(upside);
    for (const id of ['patellar-tilt', 'patellar-shift', 'patellar-thickness'])
      expect(value(id, after)).toBeCloseTo(value(id), 9);
  });
  test('LIMB-28 a front on the condyles gives no direction and is refused', () => {
    const at = (x: number, y: number) => point('axial', x, y);
    const line = lineThrough(at(-20, 7), at(20, 7));
    const back = direction(at(-10, 12), at(10, 12));
    if (!line.ok || !back.ok) throw new Error('a line');
    const tilt = patellarTilt(line.value, back.value, at(0, 7));
    expect(tilt.ok ? 'ok' : tilt.reason.code).toBe('patella-on-condyles');
  });
  test('LIMB-29 no scale, no shift; the tilt stays', () => {
    const none = { source: 'none', pixelAspect: 1, rule: 'SCALE-10', because: 'nothing stated' } as const;
    const unscaled = measureKnee({ ...evidence, calibrations: new Map([...evidence.calibrations, ['sky', none]]) });
    expect(lineOf(unscaled, 'patellar-shift').refused?.code).toBe('no-scale');
    expect(value('patellar-tilt', unscaled)).toBeCloseTo(6, 1);
  });
});

describe('LIMB-31 opening on stress films', () => {
  test.each(['varus', 'valgus'])('%s: 3 degrees, and 44 mm times their tangent against the other side', (stress) => {
    expect(value(`${stress}-stress-angle`)).toBeCloseTo(3, 6);
    expect(value(`${stress}-stress-opening`)).toBeCloseTo(44 * Math.tan(Math.PI / 60), 6);
    expect(flagsOf(lines, `${stress}-stress-angle`)).toContain('other-side-taken-in-contact');
  });
  // Geometry reference 9.1: 1 degree opens 0.87 mm at a lever of 50 mm.
  test('1 degree opens 0.87 mm at condyles 50 mm apart', () =>
    expect(50 * Math.tan(Math.PI / 180)).toBeCloseTo(0.87, 2));
  test('without such a film it says so, and the film at rest is never taken for one', () => {
    const rest = measureKnee({ ...evidence, films: evidence.films.filter((f) => f.view !== 'stress-varus') });
    expect(lineOf(rest, 'varus-stress-angle').refused?.code).toBe('no-such-film');
    expect(lineOf(lines, 'jlca').film).toBe('long');
  });
});

describe('LIMB-32 a lateral film that is rotated', () => {
  test('the condyles of the known case lie 5 mm apart', () =>
    expect(value('posterior-condyles-apart')).toBeCloseTo(5, 6));
  test('which of the two lies behind does not matter', () => {
    const swapped = measureKnee(moved('posterior-condyle-other', 'lat', [-10, 0]));
    expect(value('posterior-condyles-apart', swapped)).toBeCloseTo(5, 6);
  });
});
