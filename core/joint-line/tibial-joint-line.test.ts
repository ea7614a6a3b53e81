import { describe, expect, test } from 'vitest';
import { knownCase } from '../landmarks/known-knee.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { Outcome } from '../measure/outcome.ts';
import type { JointLineEstimate } from './estimate-types.ts';
import { femoralJointLine } from './femoral-joint-line.ts';
import type { JointLineInput } from './joint-line-input.ts';
import { rulesOfThumb } from './rules-of-thumb.ts';
import { tibialJointLine } from './tibial-joint-line.ts';

const base = knownCase();
const marked = (keep: (m: Mark) => boolean, change: Partial<JointLineInput> = {}): JointLineInput => ({
  ...base,
  marks: base.marks.filter(keep),
  ...change,
});
const given = (o: Outcome<JointLineEstimate>): JointLineEstimate => {
  if (!o.ok) throw new Error(o.reason.code);
  return o.value;
};
const refusal = (o: Outcome<JointLineEstimate>) => (o.ok ? null : o.reason);
const height = (e: JointLineEstimate, id: string) => e.opinions.find((o) => o.id === id)?.heightMm;
const right = (m: Mark) => m.side === 'right';

// The tray falls medially by 3.66 mm in 70: the 10 mm insert stands a little taller along the axis.
const LIFT = 10 / Math.cos(Math.atan2(3.66, 70));

describe('opinions from the tibia', () => {
  const e = given(tibialJointLine(base));
  test('JL-4 fibular tip: 13 mm against tray, insert and tip', () =>
    expect(height(e, 'fibular-tip')).toBeCloseTo(13 - (-10 + LIFT + 16), 9));
  test('JL-5 tubercle on the lateral film: 22 mm against the middle of the bearing line, along the shaft', () => {
    const tilt = Math.atan2(2.516, 48);
    expect(height(e, 'tibial-tubercle')).toBeCloseTo(22 - ((-9 - 11.516) / 2 + 10 * Math.cos(tilt) + 32), 9);
    expect(e.opinions.find((o) => o.id === 'tibial-tubercle')).toMatchObject({
      film: 'lat',
      personSdMm: 4.5,
      widthRatio: 0,
    });
  });
  test('JL-6 the other knee: its plateau and cartilage over its own fibular tip', () => {
    const there = -2 + 2 / Math.cos(Math.atan2(2, 48)) + 13;
    expect(height(e, 'other-knee')).toBeCloseTo(there - (-10 + LIFT + 16), 9);
  });
  test('JL-11 femur and tibia keep two numbers', () => {
    expect(given(femoralJointLine(base)).heightMm).not.toBeCloseTo(e.heightMm, 1);
    expect(e.opinions.every((o) => o.group !== 'femur')).toBe(true);
  });
  test('JL-11 the inferior patellar pole has no opinion', () => {
    const ids = [...e.opinions, ...given(femoralJointLine(base)).opinions].map((o) => o.id);
    expect(ids.some((id) => id.startsWith('patella'))).toBe(false);
    const without = marked((m) => !m.landmark.startsWith('patella'));
    expect(given(tibialJointLine(without)).heightMm).toBe(e.heightMm);
  });
  test('JL-14 level and both axes are named', () => {
    expect(e.level).toContain('bearing surface');
    expect(e.axis).toContain('mechanical axis of the tibia');
    expect(e.axis).toContain('lateral film');
  });
});

describe('JL-12 the tip of the fibular head never stands alone', () => {
  const fibulaOnly = (m: Mark) => right(m) && m.film !== 'lat';
  test('refused, naming what would join it', () =>
    expect(refusal(tibialJointLine(marked(fibulaOnly)))).toMatchObject({
      code: 'fibular-tip-alone',
      field: 'marks[fibular-tip]',
      mend: expect.stringContaining('tubercle'),
    }));
  test('with the tubercle or the other knee it counts', () => {
    expect(given(tibialJointLine(marked(right))).opinions).toHaveLength(2);
    expect(given(tibialJointLine(marked((m) => m.film !== 'lat'))).opinions).toHaveLength(2);
  });
  test('the tubercle alone gives its own value and spread', () => {
    const e = given(tibialJointLine(marked((m) => right(m) && m.landmark !== 'fibular-tip')));
    expect(e.opinions.map((o) => o.id)).toEqual(['tibial-tubercle']);
    expect(e.agreement).toBeNull();
    expect(e.sdMm).toBeGreaterThan(4.5);
  });
});

describe('JL-11 the bearing line', () => {
  const { implants: _, ...unknownInsert } = base;
  test('without the insert thickness the femoral tangent of a standing film stands in, and says so', () => {
    const e = given(tibialJointLine(unknownInsert));
    expect(e.warnings.map((w) => w.code)).toContain('bearing-from-femur');
    // The tangent lies level at 0: 16 mm over the tip.
    expect(height(e, 'fibular-tip')).toBeCloseTo(13 - 16, 9);
  });
  test('on a film that is not known to be standing it does not: the insert is asked for', () => {
    const films = base.films.map(({ id, view, side, role, columnsTowards }) => ({
      id,
      view,
      side,
      role,
      ...(columnsTowards ? { columnsTowards } : {}),
    }));
    expect(refusal(tibialJointLine({ ...unknownInsert, films }))).toMatchObject({
      code: 'insert-thickness-unknown',
      field: 'implants.insertMm',
    });
  });
  test('an insert 1 mm thicker lifts the present line by about 1 mm', () => {
    const thicker = given(tibialJointLine({ ...base, implants: { insertMm: 11 } }));
    const e = given(tibialJointLine(base));
    expect((height(e, 'fibular-tip') ?? 0) - (height(thicker, 'fibular-tip') ?? 0)).toBeCloseTo(LIFT / 10, 9);
  });
  test('on a short film the shaft gives the axis', () => {
    const e = given(tibialJointLine({ ...base, films: base.films.filter((f) => f.id !== 'long') }));
    expect(e.axis).toContain('axis of the tibial shaft');
    expect(Math.abs((height(e, 'fibular-tip') ?? 0) - (13 - (-10 + LIFT + 16)))).toBeLessThan(0.01);
  });
});

describe('refusals', () => {
  test('nothing marked: what to mark is named', () => {
    expect(refusal(tibialJointLine(marked(() => false)))).toMatchObject({ code: 'landmark-missing' });
    const noTips = marked((m) => m.landmark !== 'fibular-tip' && m.landmark !== 'tibial-tubercle');
    expect(refusal(tibialJointLine(noTips))).toMatchObject({
      code: 'no-landmark',
      mend: expect.stringContaining('fibular tip'),
    });
  });
});

describe('JL-13 rules of thumb', () => {
  test('25 below the medial, 30 below the lateral epicondyle, 15 above the fibular tip', () => {
    const rules = rulesOfThumb(base);
    expect(rules.map((r) => r.heightMm)).toEqual([
      expect.closeTo(24 - 25, 9),
      expect.closeTo(20.5 - 30, 9),
      expect.closeTo(15 - (-10 + LIFT + 16), 9),
    ]);
    expect(new Set(rules.map((r) => r.source))).toEqual(new Set(['common practice, no source']));
  });
  test('what cannot be had says why', () => {
    const rules = rulesOfThumb(marked((m) => m.landmark !== 'lateral-epicondyle' && m.landmark !== 'fibular-tip'));
    expect(rules.map((r) => r.heightMm === null)).toEqual([false, true, true]);
    expect(rules[1]?.cannot).toMatchObject({ code: 'landmark-missing', field: 'marks[lateral-epicondyle]' });
    expect(rulesOfThumb({ ...base, calibrations: new Map() }).every((r) => r.heightMm === null && r.cannot)).toBe(true);
  });
  test('they have no weight: the consensus knows nothing of them', () => {
    const ids = given(femoralJointLine(base)).opinions.map((o) => o.id);
    for (const r of rulesOfThumb(base)) expect(ids).not.toContain(r.id);
  });
});
