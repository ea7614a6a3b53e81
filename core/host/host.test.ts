import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Known } from '../measure/known.ts';
import { CARDIAC_RISK_ITEMS, cardiacRisk } from './cardiac-risk.ts';
import { CHARLSON_ITEMS, type CharlsonId, charlson, charlsonAgePoints, charlsonTenYearSurvival } from './charlson.ts';
import { HOST_FACTORS, hostFindings } from './optimise.ts';

const all = (known: Known) => Object.fromEntries(CHARLSON_ITEMS.map((i) => [i.id, known])) as Record<CharlsonId, Known>;

describe('comorbidity', () => {
  // Values of 0.983^(e^(0.9 CCI)) computed by hand from the published formula.
  test.each([
    [0, 98.3],
    [1, 95.9],
    [2, 90.1],
    [3, 77.5],
    [4, 53.4],
    [5, 21.4],
    [6, 2.25],
    [7, 0.01],
  ])('HOST-1 index %i means %f per cent alive after ten years', (points, percent) => {
    expect(charlsonTenYearSurvival(points) * 100).toBeCloseTo(percent, percent < 1 ? 2 : 1);
  });

  test('HOST-1 worked example: age 65, heart failure, lung disease, diabetes with damage = 6, 2.25 %', () => {
    const r = charlson(
      { ...all('no'), 'heart-failure': 'yes', 'chronic-lung': 'yes', 'diabetes-with-damage': 'yes' },
      65,
    );
    expect(r.ok && r.value).toMatchObject({ points: 4, pointsAtMost: 4, agePoints: 2 });
    expect(r.ok && r.value.tenYearSurvival).toBeCloseTo(0.0225, 3);
  });

  test('HOST-1 of a pair only the higher counts', () => {
    const r = charlson(
      {
        ...all('no'),
        diabetes: 'yes',
        'diabetes-with-damage': 'yes',
        'solid-tumour': 'yes',
        'metastatic-tumour': 'yes',
      },
      40,
    );
    expect(r.ok && r.value.points).toBe(2 + 6);
  });

  test('HOST-1 unknown is never no: it widens the range and holds survival back', () => {
    const r = charlson({}, 70);
    expect(r.ok && r.value.points).toBe(0);
    expect(r.ok && r.value.pointsAtMost).toBeGreaterThan(20);
    expect(r.ok && r.value.tenYearSurvival).toBeNull();
    expect(charlson({}, 200).ok).toBe(false);
  });

  test('HOST-1 age gives 0, 1, 2, 3, 4 points by decade from 50', () => {
    expect([49, 50, 59, 60, 70, 79, 80, 95].map(charlsonAgePoints)).toEqual([0, 1, 1, 2, 3, 3, 4, 4]);
  });

  test('HOST-1 one more disease never lowers the index', () => {
    fc.assert(
      fc.property(
        fc.subarray(CHARLSON_ITEMS.map((i) => i.id)),
        fc.constantFrom(...CHARLSON_ITEMS.map((i) => i.id)),
        (present, more) => {
          const base = { ...all('no'), ...Object.fromEntries(present.map((id) => [id, 'yes' as const])) };
          const before = charlson(base, null);
          const after = charlson({ ...base, [more]: 'yes' }, null);
          expect(after.ok && before.ok && after.value.points >= before.value.points).toBe(true);
        },
      ),
    );
  });

  test('HOST-2 counts items, a revision of the knee itself gives none', () => {
    expect(cardiacRisk({ insulin: 'yes', 'heart-failure': 'yes' })).toEqual({
      index: 2,
      indexAtMost: CARDIAC_RISK_ITEMS.length,
    });
    const none = Object.fromEntries(CARDIAC_RISK_ITEMS.map((i) => [i.id, 'no' as const]));
    expect(cardiacRisk(none)).toEqual({ index: 0, indexAtMost: 0 });
  });

  test('HOST-3 each threshold is met at its own side and dates count back from surgery', () => {
    const found = hostFindings({ hba1c: 7.7, albumin: 3.5, haemoglobin: 12.9 }, '2027-03-01');
    const of = (id: string) => found.find((f) => f.factor.id === id)!;
    expect(of('hba1c')).toMatchObject({ standing: 'act', beginBy: '2026-12-07' });
    expect(of('albumin').standing).toBe('fine');
    expect(of('haemoglobin')).toMatchObject({ standing: 'act', beginBy: '2027-02-01' });
    expect(of('ferritin')).toMatchObject({ standing: 'not-known', beginBy: null });
    expect(hostFindings({ hba1c: 9 }, null).find((f) => f.factor.id === 'hba1c')?.beginBy).toBeNull();
    expect(found).toHaveLength(HOST_FACTORS.length);
  });
});
