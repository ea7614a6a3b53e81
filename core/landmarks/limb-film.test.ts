import { describe, expect, test } from 'vitest';
import type { Calibration } from '../calibration/calibration.ts';
import { distance } from '../plane/point.ts';
import type { EvidenceFilm } from './knee-evidence.ts';
import { type KnownPoints, knownMarks, knownScale, onCircle } from './known-marks.ts';
import { isLandmarkId, LANDMARKS, landmark } from './landmark-table.ts';
import { coronalFilm, sagittalFilm } from './limb-film.ts';
import type { Mark } from './mark.ts';
import { shakable } from './reading.ts';

const MM = { x: 0.2, y: 0.2 };
const FILM: EvidenceFilm = {
  id: 'll',
  view: 'long-leg',
  side: 'both',
  role: 'present',
  columnsTowards: 'patient-left',
};
const on = { film: 'll', side: 'right', columnsTowards: 'patient-left', mmPerPx: MM, originPx: [500, 900] } as const;

function film(points: KnownPoints, calibration: Calibration = knownScale(MM), extra: readonly Mark[] = []) {
  const made = coronalFilm({ film: FILM, side: 'right', marks: [...knownMarks(points, on), ...extra], calibration });
  if (!made.ok) throw new Error(made.reason.code);
  return made.value;
}

const EDGES: KnownPoints = { 'tray-medial-edge': [-35, -12], 'tray-lateral-edge': [35, -8] };

describe('marks of one film in the frame of one limb', () => {
  test('known millimetres come back as millimetres', () => {
    const f = film(EDGES);
    const [m, l] = [f.placed.get('tray-medial-edge'), f.placed.get('tray-lateral-edge')];
    if (!m || !l) throw new Error('placed');
    expect(distance(m.at, l.at) * (f.mmPerUnit ?? 0)).toBeCloseTo(Math.hypot(70, 4), 9);
    expect(l.at.x).toBeGreaterThan(m.at.x);
  });
  test("LM-6 a mark's own spread goes before the landmark's default; both are millimetres in the patient", () => {
    const marks = knownMarks(EDGES, on).map((m) => (m.landmark === 'tray-medial-edge' ? { ...m, sdMm: 2 } : m));
    const made = coronalFilm({ film: FILM, side: 'right', marks, calibration: knownScale(MM) });
    if (!made.ok) throw new Error(made.reason.code);
    const sd = (id: 'tray-medial-edge' | 'tray-lateral-edge') => made.value.placed.get(id)?.spread?.[0].x;
    expect(sd('tray-medial-edge')).toBeCloseTo(2 / 0.2, 12);
    expect(sd('tray-lateral-edge')).toBeCloseTo(0.5 / 0.2, 12);
  });
  test('LM-6 without a scale the spread in pixels is not known', () => {
    const f = film(EDGES, { source: 'none', pixelAspect: 1, rule: 'SCALE-10', because: 'nothing stated' });
    expect(f.placed.get('tray-medial-edge')?.spread).toBeNull();
    expect(f.mmPerUnit).toBeNull();
  });
  test('marks of the other side and of other films stay out', () => {
    const others = [
      ...knownMarks({ 'fibular-tip': [34, -13] }, { ...on, side: 'left' }),
      ...knownMarks({ 'fibular-tip': [34, -13] }, { ...on, film: 'ap' }),
    ];
    expect([...film(EDGES, knownScale(MM), others).placed.keys()]).toEqual(['tray-medial-edge', 'tray-lateral-edge']);
  });
  test('LM-7 a film of the left knee is refused for the right one', () => {
    const made = coronalFilm({
      film: { ...FILM, side: 'left' },
      side: 'right',
      marks: [],
      calibration: knownScale(MM),
    });
    expect(made.ok).toBe(false);
    if (!made.ok) expect([made.reason.code, made.reason.field]).toEqual(['wrong-side', 'films[ll].side']);
  });
  test('no calibration at all means that the shape of the pixels is not known', () => {
    const made = coronalFilm({ film: FILM, side: 'right', marks: [], calibration: undefined });
    expect(made.ok ? '' : made.reason.code).toBe('pixel-shape-unknown');
  });
  test('a coordinate that is no number, and a point given twice over, are faults that name the mark', () => {
    const [one] = knownMarks({ 'fibular-tip': [34, -13] }, on);
    if (!one) throw new Error('mark');
    const bad = film({}, knownScale(MM), [{ ...one, points: [{ x: Number.NaN, y: 1 }] }]);
    expect(bad.faults.get('fibular-tip')?.code).toBe('not-a-finite-number');
    expect(bad.faults.get('fibular-tip')?.field).toContain('fibular-tip');
    const two = film({}, knownScale(MM), [{ ...one, points: [...one.points, { x: 1, y: 1 }] }]);
    expect(two.faults.get('fibular-tip')?.code).toBe('one-point-needed');
  });
});

describe('LM-4 marks the wrong way round', () => {
  const codes = (points: KnownPoints) => [...film(points).faults].map(([id, r]) => `${id} ${r.code}`).sort();
  test('exchanged edges of the tray are found', () => {
    expect(codes({ 'tray-medial-edge': [35, -8], 'tray-lateral-edge': [-35, -12] })).toEqual([
      'tray-lateral-edge marks-mixed',
      'tray-medial-edge marks-mixed',
    ]);
  });
  test('marks of a left knee taken for a right one are found', () => {
    const marks = knownMarks(EDGES, { ...on, side: 'left' }).map((m) => ({ ...m, side: 'right' as const }));
    expect([...film({}, knownScale(MM), marks).faults.keys()].sort()).toEqual([
      'tray-lateral-edge',
      'tray-medial-edge',
    ]);
  });
  test('exchanged levels of a shaft are found', () => {
    expect(
      codes({
        'femoral-shaft-proximal-medial': [-14, 100],
        'femoral-shaft-distal-medial': [-12, 200],
        ...EDGES,
      }),
    ).toEqual(['femoral-shaft-distal-medial marks-mixed', 'femoral-shaft-proximal-medial marks-mixed']);
  });
  test('a lateral film that lies turned by 90 degrees is no fault', () => {
    // Tibia to the right, femur to the left, front of the knee up.
    const turned = ([x, y]: readonly [number, number]) => [-y, x] as const;
    const upright: readonly (readonly [keyof KnownPoints, readonly [number, number]])[] = [
      ['tibial-sagittal-proximal-anterior', [17, -60]],
      ['tibial-sagittal-proximal-posterior', [-17, -60]],
      ['tibial-sagittal-distal-anterior', [14, -160]],
      ['tibial-sagittal-distal-posterior', [-14, -160]],
      ['femoral-sagittal-proximal-anterior', [18, 180]],
      ['femoral-sagittal-proximal-posterior', [-14, 180]],
      ['femoral-sagittal-distal-anterior', [18, 90]],
      ['femoral-sagittal-distal-posterior', [-14, 90]],
    ];
    const lateral: EvidenceFilm = {
      id: 'lat',
      view: 'lateral',
      side: 'right',
      role: 'present',
      columnsTowards: 'anterior',
    };
    const faults = (points: KnownPoints) => {
      const marks = knownMarks(points, { ...on, film: 'lat', columnsTowards: 'anterior' });
      const made = sagittalFilm({ film: lateral, side: 'right', marks, calibration: knownScale(MM) });
      if (!made.ok) throw new Error(made.reason.code);
      return made.value.faults.size;
    };
    expect(faults(Object.fromEntries(upright))).toBe(0);
    expect(faults(Object.fromEntries(upright.map(([id, p]) => [id, turned(p)])))).toBe(0);
    expect(faults(Object.fromEntries(upright.map(([id, [x, y]]) => [id, turned([-x, y])])))).toBe(8);
  });
});

describe('LM-5 outlines', () => {
  const HEAD = [10, 55, 100, 145, 190, 235, 280, 325];
  test('the hip centre is the centre of the circle, sharper than one point of it', () => {
    const f = film({ 'femoral-head': onCircle([-12, 440], 24, HEAD) });
    const head = f.placed.get('femoral-head');
    if (!head?.spread) throw new Error('placed');
    expect((head.radius ?? 0) * 0.2).toBeCloseTo(24, 9);
    // Eight points all round: each coordinate of the centre errs by sd / sqrt(n / 2).
    const sdX = Math.hypot(head.spread[0].x, head.spread[1].x) * 0.2;
    const sdY = Math.hypot(head.spread[0].y, head.spread[1].y) * 0.2;
    expect(sdX).toBeCloseTo(0.7 / 2, 9);
    expect(sdY).toBeCloseTo(0.7 / 2, 9);
  });
  test('two points are a fault that names the outline', () => {
    const f = film({ 'femoral-head': onCircle([-12, 440], 24, [10, 90]) });
    expect(f.faults.get('femoral-head')?.code).toBe('too-few-points');
    expect(f.faults.get('femoral-head')?.message).toContain('Femoral head');
  });
});

describe('reading', () => {
  test('asking for a landmark that was not stated is a bug, not a value', () => {
    const { reading } = shakable(film(EDGES), ['tray-medial-edge']);
    expect(() => reading.at('tray-lateral-edge')).toThrow(/not among the stated inputs/);
    expect(() => shakable(film(EDGES), ['fibular-tip'])).toThrow(/not marked/);
  });
  test('a moved input moves and comes back', () => {
    const { reading, perturbations } = shakable(film(EDGES), ['tray-medial-edge'], 10);
    const before = { ...reading.at('tray-medial-edge') };
    expect(perturbations).toHaveLength(4);
    for (const p of perturbations) p.move(1);
    expect(reading.at('tray-medial-edge')).not.toEqual(before);
    expect([reading.insertMm, reading.mmPerUnit]).toEqual([10.5, expect.closeTo(0.202, 12)]);
    for (const p of perturbations) p.move(0);
    expect(reading.at('tray-medial-edge')).toEqual(before);
    expect([reading.insertMm, reading.mmPerUnit]).toEqual([10, 0.2]);
  });
});

describe('the table of landmarks', () => {
  test('LM-6 every landmark has its own name, a way to pick it and a marking spread between 0.1 and 2 mm', () => {
    expect(new Set(LANDMARKS.map((l) => l.id)).size).toBe(LANDMARKS.length);
    expect(new Set(LANDMARKS.map((l) => l.label)).size).toBe(LANDMARKS.length);
    for (const l of LANDMARKS) {
      expect(l.pick.length).toBeGreaterThan(15);
      expect(l.views.length).toBeGreaterThan(0);
      expect(l.markingSdMm).toBeGreaterThanOrEqual(0.1);
      expect(l.markingSdMm).toBeLessThanOrEqual(2);
    }
  });
  test('names are known or not', () => {
    expect([isLandmarkId('fibular-tip'), isLandmarkId('fibula')]).toEqual([true, false]);
    expect(landmark('fibular-tip').bone).toBe('tibia');
  });
});
