import type { ComparedLine } from '@gapline/core/compare/compare-dates.ts';
import { knownCase } from '@gapline/core/landmarks/known-knee.ts';
import { measureKnee } from '@gapline/core/limb/measure-knee.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import { inOrder, placeOf, reachOf, readingWords } from './change-scale.ts';
import { groupsOf } from './measurement-groups.ts';
import { addSpan, chartEdit, moveSpan, removeSpan } from './span-edits.ts';
import { type SpanInHand, spanStep } from './span-tool.ts';

const line = (id: string, value: number, change: Partial<ComparedLine> = {}): ComparedLine => ({
  id,
  label: id,
  unit: 'mm',
  sign: '',
  rule: 'LIMB-27',
  before: { value: 0, sd: 1, film: 'a' },
  now: { value, sd: 1, film: 'b' },
  change: { value, sd: 1, sdUnshared: 1, shared: [], filmToFilm: 0 },
  larger: Math.abs(value) > 1.96,
  holds: false,
  flags: [],
  ...change,
});

describe('the picture of changes', () => {
  test('every interval and every limit of one unit fits into the picture, and no change is in its middle', () => {
    const lines = [line('a', 4), line('b', -1, { movement: { limit: 9, reading: 'within-error' } })];
    const reach = reachOf(lines, 'mm');
    expect(placeOf(0, reach, 180)).toBe(90);
    for (const v of [-9, 9, 5.96, -2.96]) {
      expect(placeOf(v, reach, 180)).toBeGreaterThan(0);
      expect(placeOf(v, reach, 180)).toBeLessThan(180);
    }
  });
  test('what holds or moved comes first, then what is larger; the rest as measured', () => {
    const lines = [
      line('quiet', 0),
      line('larger', 3),
      line('holds', 9, { holds: true }),
      line('moved', -3, { movement: { limit: 2, reading: 'moved' } }),
    ];
    expect(inOrder(lines).map((l) => l.id)).toEqual(['holds', 'moved', 'larger', 'quiet']);
    expect(inOrder(lines).map(readingWords)).toEqual(['changed', 'moved', 'perhaps changed', 'within error']);
  });
});

test('every measurement stands in exactly one group', () => {
  const lines = measureKnee(knownCase());
  const groups = groupsOf(lines);
  expect(groups.flatMap((g) => g.lines)).toHaveLength(lines.length);
  expect(groups.map((g) => g.title)).toContain('Component position');
  expect(groups.find((g) => g.title === 'Overhang')?.lines.length).toBe(6);
});

describe('a width across an interface', () => {
  const hand: SpanInHand = {
    is: 'span',
    film: 'ap',
    kind: 'lucent-line',
    component: 'tibia-ap',
    zone: null,
    first: null,
  };
  const told = { id: 'one', zoneAt: () => 3 };
  test('two presses make one; its zone is that of its middle, or the one chosen', () => {
    const first = spanStep(hand, { x: 10.004, y: 20 }, told);
    expect(first.span).toBeNull();
    const second = spanStep(first.hand, { x: 10, y: 30 }, told);
    expect(second.span).toEqual({
      id: 'one',
      kind: 'lucent-line',
      component: 'tibia-ap',
      zone: 3,
      film: 'ap',
      from: { x: 10, y: 20 },
      to: { x: 10, y: 30 },
    });
    expect(second.hand.first).toBeNull();
    expect(spanStep({ ...first.hand, zone: 6 }, { x: 10, y: 30 }, told).span?.zone).toBe(6);
  });
  const file = { interfaceSpans: [] } as unknown as CaseFile;
  const span = {
    id: 'one',
    kind: 'lucent-line',
    component: 'tibia-ap',
    zone: 2,
    film: 'ap',
    from: { x: 0, y: 0 },
    to: { x: 0, y: 10 },
  } as const;
  test('added, moved and taken away as one field of the case; the last one clears it', () => {
    const added = addSpan(file, span);
    expect(added).toEqual({ kind: 'set', field: '/interfaceSpans', value: [span] });
    const one = { ...file, interfaceSpans: [span] };
    expect(moveSpan(one, 'one', { edge: 'to', to: { x: 0, y: 12 } })).toMatchObject({ value: [{ to: { y: 12 } }] });
    expect(removeSpan(one, 'one')).toMatchObject({ value: null });
  });
  test('CAUSE-3 the widest line goes into its zone of the chart; what was entered elsewhere stays', () => {
    const charted = {
      interfaceSpans: [span],
      workUp: { lucentLines: { 'tibia-ap': { widths: [0.5, null, null, null, null, null, null], progressing: 'no' } } },
    } as unknown as CaseFile;
    expect(chartEdit(charted, knownCase(), 'tibia-ap')).toEqual({
      kind: 'set',
      field: '/workUp/lucentLines/tibia-ap',
      value: { widths: [0.5, 1.4, null, null, null, null, null], progressing: 'no' },
    });
    expect(chartEdit(charted, knownCase(), 'femur')).toBeNull();
  });
});
