import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { AnalyteId } from '../laboratory/analyte.ts';
import type { LabResult } from '../laboratory/lab-result.ts';
import { labSeries } from '../laboratory/series.ts';
import { NO_CUT_OFF, readiness } from './readiness.ts';
import { trendOf } from './trend.ts';
import type { WorkUp } from './work-up.ts';

// Constructed: first stage on 1 August, six weeks of antibiotics in two overlapping courses, then none.
const TODAY = '2026-10-01';
const lab = (id: string, analyte: AnalyteId, value: number, rest: Partial<LabResult> = {}): LabResult => ({
  id,
  analyte,
  value,
  unit: analyte === 'esr' ? 'mm/h' : 'mg/L',
  ...rest,
});
const RESULTS: readonly LabResult[] = [
  lab('a', 'crp', 90, { takenOn: '2026-07-20' }),
  lab('b', 'crp', 4.1, { unit: 'mg/dL', takenOn: '2026-08-15' }),
  lab('c', 'crp', 12, { takenOn: '2026-09-20' }),
  lab('d', 'esr', 40, { takenOn: '2026-08-15' }),
  lab('e', 'esr', 55, { takenOn: '2026-09-20' }),
  lab('f', 'crp', 3, {}),
  lab('g', 'crp', 3, { takenOn: '2026-12-24' }),
  lab('h', 'synovial-wbc', 800, { unit: '/uL', takenOn: '2026-09-25' }),
];
const RECORD: WorkUp = {
  history: { operations: [{ id: 'o', on: '2014-05-02', kind: 'first-replacement' }] },
  infection: {
    labResults: RESULTS,
    cultures: [
      { id: 'k', from: 'aspirate', growth: 'none', takenOn: '2026-09-25' },
      { id: 'l', from: 'tissue', growth: 'growth', takenOn: '2026-08-01' },
      { id: 'm', from: 'tissue', growth: 'growth', takenOn: '2026-07-20' },
    ],
  },
  timeline: [
    { id: '1', from: '2026-08-01', kind: 'operation', text: 'first stage' },
    { id: '2', from: '2026-07-25', to: '2026-08-20', kind: 'antibiotic', text: 'into the vein' },
    { id: '3', from: '2026-08-15', to: '2026-09-11', kind: 'antibiotic', text: 'by mouth' },
  ],
};
const read = (record: WorkUp, today = TODAY) =>
  readiness(record, labSeries(record.infection?.labResults ?? [], today), today);
const fact = (record: WorkUp, id: string) => read(record).facts.find((f) => f.id === id)!;

describe('between two stages', () => {
  test('WU-6 days are counted from the last operation, overlapping courses once, first and last day included', () => {
    // 1 August to 11 September: 31 + 11 days; 12 September to 1 October: 20 days after the last dose.
    expect(read(RECORD).stageOn).toBe('2026-08-01');
    expect(fact(RECORD, 'since-stage')).toMatchObject({ value: 61, text: '61 days (8.7 weeks)' });
    expect(fact(RECORD, 'antibiotic-days')).toMatchObject({ value: 42 });
    expect(fact(RECORD, 'holiday-days')).toMatchObject({ value: 20, text: '20 days' });
  });

  test('WU-6 markers since then with their course, in one unit', () => {
    expect(fact(RECORD, 'crp')).toMatchObject({ value: 12, text: '41 (2026-08-15), 12 (2026-09-20) mg/L: falling' });
    expect(fact(RECORD, 'esr').text).toBe('40 (2026-08-15), 55 (2026-09-20) mm/h: rising');
    expect(fact(RECORD, 'aspirate')).toMatchObject({ value: 800, text: '800 cells/uL (2026-09-25)' });
    expect(fact(RECORD, 'spacer-culture').text).toBe('1 with growth, 1 without, 0 not yet read');
  });

  test('WU-6 what is not known is missing, never nought, and no verdict is given', () => {
    const bare: WorkUp = { timeline: RECORD.timeline!.slice(0, 1) };
    expect(
      read(bare)
        .facts.filter((f) => f.id !== 'since-stage')
        .map((f) => [f.value, f.text]),
    ).toEqual(Array.from({ length: 6 }, () => [null, null]));
    expect(read({})).toEqual({ stageOn: null, facts: [], faults: [], remark: NO_CUT_OFF });
    expect(read(RECORD).remark).toContain('No cut-off for reimplantation is proven');
  });

  test('WU-6 antibiotics that go on count to today and leave no day without', () => {
    const on: WorkUp = {
      timeline: [RECORD.timeline![0]!, { id: '9', from: '2026-09-22', kind: 'antibiotic', text: '' }],
    };
    expect(fact(on, 'antibiotic-days')).toMatchObject({ value: 10, text: '10 days, going on' });
    expect(fact(on, 'holiday-days').value).toBe(0);
  });

  test('WU-6 impossible, future and reversed days are named at their field and used for nothing', () => {
    const timeline: WorkUp['timeline'] = [
      ...RECORD.timeline!,
      { id: 'x', from: '2026-02-30', kind: 'antibiotic', text: '' },
      { id: 'y', from: '2026-12-01', kind: 'operation', text: '' },
      { id: 'z', from: '2026-09-20', to: '2026-09-01', kind: 'antibiotic', text: '' },
      { id: 'h', from: '2026-09-01', kind: 'holiday', text: '' },
    ];
    const got = read({ ...RECORD, timeline });
    expect(got.faults.map((f) => [f.field, f.code])).toEqual([
      ['timeline[x].from', 'impossible-date'],
      ['timeline[y].from', 'future-date'],
      ['timeline[z].to', 'ends-before-it-begins'],
      ['timeline[h].from', 'holiday-on-antibiotics'],
    ]);
    expect(got.facts).toEqual(read(RECORD).facts);
  });

  test('WU-7 the trend holds sound dated values alone, with operations and antibiotics', () => {
    const trend = trendOf(RECORD, labSeries(RESULTS, TODAY), TODAY);
    expect(trend.crp.map((p) => [p.on, p.value])).toEqual([
      ['2026-07-20', 90],
      ['2026-08-15', 41],
      ['2026-09-20', 12],
    ]);
    expect(trend.esr.map((p) => p.value)).toEqual([40, 55]);
    expect(trend.undated).toBe(1);
    expect(trend.operations.map((o) => [o.on, o.text])).toEqual([
      ['2014-05-02', 'first replacement'],
      ['2026-08-01', 'first stage'],
    ]);
    expect(trend.antibiotics.map((a) => a.to! - a.from)).toEqual([26, 27]);
  });

  test('WU-7 one operation told in history and timeline is one', () => {
    const twice: WorkUp = { ...RECORD, history: { operations: [{ id: 'o', on: '2026-08-01', kind: 'revision' }] } };
    expect(trendOf(twice, labSeries([], TODAY), TODAY).operations).toHaveLength(1);
  });

  test('WU-6 WU-7 order of entry changes nothing, and no entry makes a number that is none', () => {
    const span = fc.record({
      id: fc.uuid(),
      from: fc.constantFrom('2026-08-01', '2026-09-05', '2026-13-01', '2027-01-01', ''),
      to: fc.constantFrom('2026-08-10', '2026-09-30', 'never'),
      kind: fc.constantFrom('antibiotic', 'operation', 'holiday', 'note'),
      text: fc.constant('x'),
    }) as fc.Arbitrary<NonNullable<WorkUp['timeline']>[number]>;
    fc.assert(
      fc.property(fc.uniqueArray(span, { selector: (s) => s.id, maxLength: 8 }), (timeline) => {
        const there = read({ ...RECORD, timeline });
        const back = read({ ...RECORD, timeline: timeline.toReversed() });
        expect(back).toEqual(there);
        for (const f of there.facts) expect(f.value === null || Number.isFinite(f.value)).toBe(true);
      }),
    );
  });
});
