import { describe, expect, test } from 'vitest';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { CaseFile } from './case.ts';
import { makePlan } from './make-plan.ts';
import { spreadOfMarking, withMeasuredSpread } from './measured-spread.ts';

const BONE: readonly LandmarkId[] = [
  'medial-epicondyle',
  'lateral-epicondyle',
  'adductor-tubercle',
  'fibular-tip',
  'femoral-notch',
];
const at = (landmark: LandmarkId, x: number, y: number): Mark => ({
  landmark,
  side: 'right',
  film: 'ap',
  points: [{ x, y }],
  how: 'by-hand',
});
const marks: readonly Mark[] = [
  at('medial-epicondyle', 900, 500),
  at('lateral-epicondyle', 500, 505),
  at('adductor-tubercle', 880, 430),
  at('fibular-tip', 480, 760),
  at('femoral-notch', 700, 600),
  at('medial-condyle-distal', 800, 640),
  at('lateral-condyle-distal', 600, 642),
];
const file: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'k',
  title: 'Invented knee',
  side: 'right',
  patient: {},
  films: [
    {
      id: 'ap',
      file: 'ap.dcm',
      view: 'ap',
      side: 'right',
      role: 'present',
      columnsTowards: 'patient-left',
      scaleFacts: { volumetric: false, rows: 1400, columns: 1400, imagerPixelSpacing: [0.2, 0.2], derived: false },
      scale: { kind: 'stated-spacing', mmPerPx: 0.2, from: 'worked example' },
    },
  ],
  marks,
};
/** Every point of bone placed a second time, 4 mm to the side: a spread of 4/2 mm of one coordinate. */
const repeats = marks
  .filter((m) => BONE.includes(m.landmark))
  .map((m) => ({ ...m, points: m.points.map((p) => ({ x: p.x + 20, y: p.y })), round: 2, why: 'repeat' as const }));

describe('LM-9 the measured spread is what the plan reckons with', () => {
  test('LM-9 points of bone carry it, metal keeps its default, and the case itself stays as it is', () => {
    const used = withMeasuredSpread({ ...file, repeats });
    const sd = (id: LandmarkId) => used.marks.find((m) => m.landmark === id)?.sdMm;
    for (const id of BONE) expect(sd(id)).toBeCloseTo(2, 12);
    expect(sd('medial-condyle-distal')).toBeUndefined();
    expect(withMeasuredSpread(file)).toBe(file);
    expect(spreadOfMarking(file)).toBeNull();
  });

  test('LM-9 a measurement grows less sure where marking was found to be, and the plan names the source', () => {
    const [before, after] = [makePlan(file, null), makePlan({ ...file, repeats }, null)];
    const widths = [before, after].map((p) =>
      p.measurements.find((m) => m.id === 'epicondylar-width' && m.side === 'right'),
    );
    expect(widths[1]?.value).toBe(widths[0]?.value);
    // Two ends, each erring by 2 mm instead of 1 mm along the line; the scale errs as before.
    expect((widths[1]?.sd ?? 0) ** 2 - (widths[0]?.sd ?? 0) ** 2).toBeCloseTo(2 * (2 ** 2 - 1 ** 2), 4);
    expect(after.marking?.classes.find((c) => c.defaultMm === 1)).toMatchObject({ freedom: 10, measured: true });
    expect(after.sources).toContain('Bland & Altman 1996');
    expect(before.sources).not.toContain('Bland & Altman 1996');
    expect('marking' in before).toBe(false);
  });

  test('LM-9 four points placed twice leave the defaults, and say how far they are', () => {
    const plan = makePlan({ ...file, repeats: repeats.slice(0, 4) }, null);
    expect(plan.marking?.classes.find((c) => c.defaultMm === 1)).toMatchObject({ freedom: 8, measured: false });
    expect(plan.measurements).toEqual(makePlan(file, null).measurements);
  });
});
