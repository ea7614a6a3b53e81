import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Known } from '../../measure/known.ts';
import { hostGrade, LOCAL_FACTORS, limbGrade, onsetType, SYSTEMIC_DECISIVE, SYSTEMIC_FACTORS } from './host-limb.ts';
import { CRIME80, KLIC, readRetentionScore } from './retention-scores.ts';
import { readStrategies, STAGE_FACTS, type StageFacts } from './strategies.ts';

const none = <T extends readonly { readonly id: string }[]>(list: T) =>
  Object.fromEntries(list.map((f) => [f.id, 'no'])) as Record<T[number]['id'], Known>;
const known = fc.constantFrom<Known>('yes', 'no', 'unknown');

describe('staging', () => {
  test('STAGE-1 host A, B, C by 0, 1 to 2, more than 2 factors, and C by one decisive factor (published table)', () => {
    const f = none(SYSTEMIC_FACTORS);
    const d = none(SYSTEMIC_DECISIVE);
    expect(hostGrade(f, d)).toEqual({ atLeast: 'A', atMost: 'A' });
    expect(hostGrade({ ...f, diabetes: 'yes', nicotine: 'yes' }, d).atMost).toBe('B');
    expect(hostGrade({ ...f, diabetes: 'yes', nicotine: 'yes', dialysis: 'yes' }, d).atLeast).toBe('C');
    expect(hostGrade(f, { ...d, cd4: 'yes' })).toEqual({ atLeast: 'C', atMost: 'C' });
  });

  test('STAGE-1 unknown factors widen the grade and never count as absent', () => {
    expect(hostGrade({}, {})).toEqual({ atLeast: 'A', atMost: 'C' });
    expect(limbGrade({ ...none(LOCAL_FACTORS), fistula: 'unknown' })).toEqual({ atLeast: 1, atMost: 2 });
  });

  test('STAGE-1 onset follows four weeks since surgery and four weeks of symptoms', () => {
    expect(onsetType(3, null, 'unknown')).toBe('early-postoperative');
    expect(onsetType(100, 1, 'yes')).toBe('haematogenous');
    expect(onsetType(100, 5, 'yes')).toBe('late-chronic');
    expect(onsetType(100, 1, 'unknown')).toBeNull();
  });

  test('STAGE-2 KLIC: all items give 9.5 points and the bands of its derivation', () => {
    const all = Object.fromEntries(KLIC.items.map((i) => [i.id, 'yes' as const]));
    expect(readRetentionScore(KLIC, all)).toEqual({ points: 9.5, range: [9.5, 9.5], failurePercent: [100, 100] });
    const noneKnown = Object.fromEntries(KLIC.items.map((i) => [i.id, 'no' as const]));
    expect(readRetentionScore(KLIC, { ...noneKnown, 'crp-115': 'yes' }).failurePercent).toEqual([19.4, 19.4]);
    expect(readRetentionScore(KLIC, noneKnown).failurePercent).toEqual([4.5, 4.5]);
  });

  test('STAGE-3 CRIME80 is read with and without exchange of mobile parts while that is unknown', () => {
    const no = Object.fromEntries(CRIME80.items.map((i) => [i.id, 'no' as const]));
    const read = readRetentionScore(CRIME80, { ...no, male: 'yes', exchange: 'unknown' });
    expect(read.range).toEqual([0, 1]);
    expect(read.failurePercent).toEqual([28, 40]);
    expect(readRetentionScore(CRIME80, { ...no, exchange: 'yes' }).failurePercent).toEqual([22, 22]);
  });

  test('STAGE-2 each score stays inside its own range whatever becomes known', () => {
    fc.assert(
      fc.property(fc.constantFrom(KLIC, CRIME80), fc.array(known, { minLength: 7, maxLength: 7 }), (score, states) => {
        const items = Object.fromEntries(score.items.map((i, n) => [i.id, states[n]!]));
        const settled = Object.fromEntries(
          score.items.map((i, n) => [i.id, states[n] === 'unknown' ? ('yes' as const) : states[n]!]),
        );
        const { range } = readRetentionScore(score, items);
        const points = readRetentionScore(score, settled).points;
        expect(points).toBeGreaterThanOrEqual(range[0]);
        expect(points).toBeLessThanOrEqual(range[1]);
      }),
    );
  });

  test('STAGE-4 a sinus rules retention out, an unknown organism holds one stage back', () => {
    const of = (facts: StageFacts, id: string) => readStrategies(facts).find((s) => s.id === id)!.overall;
    const acute: StageFacts = {
      'symptoms-under-3-weeks': 'yes',
      'implant-well-fixed': 'yes',
      sinus: 'no',
      'biofilm-active-agent': 'yes',
      'soft-tissue-adequate': 'yes',
    };
    expect(of(acute, 'debridement-with-retention')).toBe('met');
    expect(of({ ...acute, sinus: 'yes' }, 'debridement-with-retention')).toBe('not-met');
    expect(of({ ...acute, sinus: 'unknown' }, 'debridement-with-retention')).toBe('not-known');
    expect(of({ 'organism-known': 'no' }, 'one-stage')).toBe('not-met');
    expect(of({ 'organism-known': 'no', 'fit-for-two-operations': 'yes' }, 'two-stages')).toBe('met');
  });

  test('STAGE-4 knowing nothing settles nothing', () => {
    expect(readStrategies({}).every((s) => s.overall === 'not-known')).toBe(true);
    expect(STAGE_FACTS.length).toBeGreaterThan(15);
  });
});
