import { describe, expect, test } from 'vitest';
import type { Calibration } from '../calibration/calibration.ts';
import type { EvidenceFilm, KneeEvidence } from '../landmarks/knee-evidence.ts';
import { knownCase, NATIVE_AP } from '../landmarks/known-knee.ts';
import { knownMarks, knownScale } from '../landmarks/known-marks.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import { flagsOf, lineOf, measuredValue } from './lines-of-a-knee.ts';
import { measureCase, measureKnee, otherKnee } from './measure-knee.ts';

const evidence = knownCase();
const MM = { x: 0.14, y: 0.14 };
const with_ = (change: Partial<KneeEvidence>): KneeEvidence => ({ ...evidence, ...change });
const marksWithout = (...ids: readonly LandmarkId[]) => evidence.marks.filter((m) => !ids.includes(m.landmark));
const remark = (change: (m: Mark) => Mark) => with_({ marks: evidence.marks.map(change) });
const films = (change: (f: EvidenceFilm) => EvidenceFilm) => with_({ films: evidence.films.map(change) });

describe('LIMB-22 what is not there is named, never made up', () => {
  test('an unmarked hip leaves lines that say what is missing', () => {
    const lines = measureKnee(with_({ marks: marksWithout('femoral-head') }));
    for (const id of ['hka', 'mldfa', 'valgus-cut-angle', 'mad', 'femoral-length'])
      expect(lineOf(lines, id)).toMatchObject({ value: null, sd: null, film: null, missing: ['femoral-head'] });
    expect(measuredValue(lines, 'mpta')).toBeCloseTo(87, 1);
  });
  test('of several ways the one that lacks least is asked for', () => {
    const lines = measureKnee(
      with_({ marks: marksWithout('femoral-component-medial-edge', 'femoral-notch', 'medial-epicondyle') }),
    );
    expect(lineOf(lines, 'mldfa').missing).toEqual(['femoral-component-medial-edge']);
  });
  test('without F1 the notch serves (F2), then the epicondyles (F3)', () => {
    const noEdges = measureKnee(with_({ marks: marksWithout('femoral-component-medial-edge') }));
    expect(lineOf(noEdges, 'mldfa').variant).toContain('F2');
    const noNotch = measureKnee(with_({ marks: marksWithout('femoral-component-medial-edge', 'femoral-notch') }));
    expect(lineOf(noNotch, 'mldfa').variant).toContain('F3');
  });
  test('without a long-leg film what needs one says so', () => {
    const lines = measureKnee(with_({ films: evidence.films.filter((f) => f.view !== 'long-leg') }));
    expect(lineOf(lines, 'hka').refused).toMatchObject({ code: 'no-such-film', field: 'films' });
    expect(lineOf(lines, 'aldfa').film).toBe('ap');
    expect(flagsOf(lines, 'mpta')).toContain('short-film');
  });
  test('a film whose direction is not known refuses with that reason', () => {
    const lines = measureKnee(
      films((f) => {
        const { columnsTowards: _, ...rest } = f;
        return f.view === 'long-leg' ? rest : f;
      }),
    );
    expect(lineOf(lines, 'hka').refused).toMatchObject({
      code: 'orientation-unknown',
      field: 'films[long].columnsTowards',
    });
  });
  test('every line has either a value, missing marks or a reason', () => {
    for (const e of [evidence, with_({ marks: [] }), with_({ films: [] }), with_({ calibrations: new Map() })])
      for (const m of measureCase(e)) {
        expect([m.value !== null, m.missing !== undefined, m.refused !== undefined].filter(Boolean)).toHaveLength(1);
        if (m.value !== null) expect(Number.isFinite(m.value)).toBe(true);
        expect(m.rule).toMatch(/^(LIMB|PAT)-\d+$/);
        expect(m.sign.length + m.source.length).toBeGreaterThan(10);
      }
  });
});

describe('no scale, no millimetres', () => {
  const none: Calibration = { source: 'none', pixelAspect: 1, rule: 'SCALE-10', because: 'nothing stated' };
  const lines = measureKnee(with_({ calibrations: new Map(['long', 'ap', 'lat'].map((id) => [id, none])) }));
  test('lengths are refused', () => {
    for (const id of ['mad', 'femoral-length', 'tray-width', 'posterior-condylar-offset', 'patellar-height'])
      expect(lineOf(lines, id)).toMatchObject({ value: null, scale: 'none', refused: { code: 'no-scale' } });
  });
  test('an index over the insert needs the scale too', () =>
    expect(lineOf(lines, 'blackburne-peel').refused?.code).toBe('no-scale'));
  test('LIMB-21 angles and ratios stay, their spread is the published reading error and says so', () => {
    const scaled = measureKnee(evidence);
    for (const [id, sd] of [
      ['hka', 0.7],
      ['mldfa', 0.6],
      ['jlca', 0.8],
      ['tibial-slope', 1.5],
    ] as const) {
      expect(measuredValue(lines, id)).toBeCloseTo(measuredValue(scaled, id), 12);
      expect(lineOf(lines, id).sd).toBe(sd);
      expect(flagsOf(lines, id)).toContain('spread-from-publications');
      expect(flagsOf(scaled, id)).not.toContain('spread-from-publications');
    }
  });
  test('pixels of unknown shape allow nothing', () => {
    const unknown = measureKnee(with_({ calibrations: new Map([['long', { ...none, pixelAspect: null }]]) }));
    expect(unknown.every((m) => m.value === null)).toBe(true);
    expect(lineOf(unknown, 'hka').refused?.code).toBe('pixel-shape-unknown');
  });
  test('a doubtful scale is said beside every length, and not beside an angle', () => {
    const doubtful = { ...knownScale(MM), doubtful: true, because: 'depth of the marker unknown' };
    const doubted = measureKnee(with_({ calibrations: new Map(['long', 'ap', 'lat'].map((id) => [id, doubtful])) }));
    expect(flagsOf(doubted, 'tray-width')).toContain('scale-doubtful');
    expect(flagsOf(doubted, 'hka')).not.toContain('scale-doubtful');
  });
});

describe('LIMB-23 which film', () => {
  const scales = (long: number, ap: number) =>
    new Map([
      ['long', knownScale(MM, long)],
      ['ap', knownScale(MM, ap)],
      ['lat', knownScale(MM)],
    ]);
  test('lengths are taken where the scale is known best, angles on the long-leg film', () => {
    const sharpAp = measureKnee(with_({ calibrations: scales(0.022, 0.01) }));
    expect([lineOf(sharpAp, 'tray-width').film, lineOf(sharpAp, 'mpta').film]).toEqual(['ap', 'long']);
    const sharpLong = measureKnee(with_({ calibrations: scales(0.01, 0.05) }));
    expect(lineOf(sharpLong, 'tray-width').film).toBe('long');
  });
  test('films from before or just after the first replacement are not measured as the present knee', () => {
    for (const role of ['before-first-replacement', 'after-first-replacement'] as const) {
      const lines = measureKnee(films((f) => ({ ...f, role })));
      expect(lineOf(lines, 'hka').value).toBeNull();
    }
  });
});

describe('LM-4 sides mixed up', () => {
  test('exchanged condyle marks refuse every angle that uses them', () => {
    const swap: Partial<Record<LandmarkId, LandmarkId>> = {
      'medial-condyle-distal': 'lateral-condyle-distal',
      'lateral-condyle-distal': 'medial-condyle-distal',
    };
    const lines = measureKnee(remark((m) => ({ ...m, landmark: swap[m.landmark] ?? m.landmark })));
    for (const id of ['mldfa', 'jlca', 'aldfa', 'hka'])
      expect(lineOf(lines, id).refused).toMatchObject({
        code: 'marks-mixed',
        mend: expect.stringContaining('Exchange'),
      });
    expect(lineOf(lines, 'mpta').value).not.toBeNull();
  });
  test('two marks in one place refuse with that reason, not with NaN', () => {
    const tray = evidence.marks.find((m) => m.landmark === 'tray-medial-edge' && m.film === 'long');
    const lines = measureKnee(
      remark((m) =>
        m.landmark === 'tray-lateral-edge' && m.film === 'long' && tray ? { ...m, points: tray.points } : m,
      ),
    );
    expect(lineOf(lines, 'mpta').refused?.code).toBe('marks-mixed');
  });
});

describe('LIMB-11 CPAK is of native bone', () => {
  const before: EvidenceFilm = {
    id: 'old',
    view: 'long-leg',
    side: 'right',
    role: 'before-first-replacement',
    columnsTowards: 'patient-left',
  };
  const old = knownMarks(NATIVE_AP, {
    film: 'old',
    side: 'right',
    columnsTowards: 'patient-left',
    mmPerPx: MM,
    originPx: [900, 3500],
  });
  test('refused with components in place', () =>
    expect(lineOf(measureKnee(evidence), 'cpak').refused?.code).toBe('native-only'));
  test('read from a film before the first replacement where there is one', () => {
    const lines = measureKnee(
      with_({
        films: [...evidence.films, before],
        marks: [...evidence.marks, ...old],
        calibrations: new Map([...evidence.calibrations, ['old', knownScale(MM)]]),
      }),
    );
    expect(lineOf(lines, 'cpak')).toMatchObject({ value: 2, sd: null, film: 'old' });
    expect(lineOf(lines, 'cpak').variant).toContain('II: neutral, apex distal');
  });
  test('the other, native knee has its own', () => expect(lineOf(measureCase(evidence), 'cpak', 'left').value).toBe(2));
});

describe('the other knee', () => {
  test('is measured where it is marked, and left out where it is not', () => {
    expect(otherKnee(evidence)).toMatchObject({ side: 'left', state: 'native' });
    expect(otherKnee(with_({ marks: evidence.marks.filter((m) => m.side === 'right') }))).toBeNull();
  });
  test('with component marks it counts as replaced', () => {
    const tray = knownMarks(
      { 'tray-medial-edge': [-35, -10], 'tray-lateral-edge': [35, -10] },
      { film: 'long', side: 'left', columnsTowards: 'patient-left', mmPerPx: MM, originPx: [2100, 3500] },
    );
    expect(otherKnee(with_({ marks: [...evidence.marks, ...tray] }))?.state).toBe('replaced');
  });
  test('has its own scale where the film carries one', () => {
    const lines = measureCase(with_({ otherKneeCalibrations: new Map([['long', knownScale({ x: 0.15, y: 0.15 })]]) }));
    const ratio =
      measuredValue(lines, 'epicondylar-width', 'left') /
      measuredValue(measureCase(evidence), 'epicondylar-width', 'left');
    expect(ratio).toBeCloseTo(0.15 / 0.14, 9);
    expect(measuredValue(lines, 'hka', 'right')).toBeCloseTo(0, 9);
  });
});

describe('LIMB-18 values from different films', () => {
  test('are flagged when they do not add up', () => {
    // The tray is marked on the AP film alone, on which the femoral tangent was marked 3.6 mm too low on the medial side.
    const marks = evidence.marks
      .filter((m) => m.side === 'right' && !(m.film === 'long' && m.landmark.startsWith('tray-')))
      .map((m) =>
        m.film === 'ap' && m.landmark === 'medial-condyle-distal'
          ? { ...m, points: m.points.map((p) => ({ x: p.x, y: p.y + 26 })) }
          : m,
      );
    const lines = measureKnee(with_({ marks }));
    expect([lineOf(lines, 'mldfa').film, lineOf(lines, 'jlca').film]).toEqual(['long', 'ap']);
    for (const id of ['hka', 'mldfa', 'mpta', 'jlca']) expect(flagsOf(lines, id)).toContain('landmarks-inconsistent');
    expect(flagsOf(measureKnee(evidence), 'hka')).not.toContain('landmarks-inconsistent');
  });
});
