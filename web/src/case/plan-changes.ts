import type { Construct } from '@gapline/core/gaps/construct.ts';
import type { Measurement } from '@gapline/core/limb/measurement.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { withUnit } from '../parts/words.ts';

/** Most measurements told; the rest are counted. */
const TOLD = 4;
/** Changes below what is shown are none. */
const LEAST: Readonly<Record<string, number>> = { mm: 0.05, deg: 0.05, '1': 0.005, px: 0.5, '%': 0.5 };

/**
 * What differs between two plans, in words, weightiest first: the construct, the joint line, then the
 * measurements that moved most against their own spread.
 */
export function changesBetween(before: Plan, after: Plan): readonly string[] {
  const moved = movedMeasurements(before, after);
  const more = moved.length - TOLD;
  return [
    ...constructChange(before, after),
    ...jointLineChange('Femoral joint line', before.jointLine.femoral, after.jointLine.femoral),
    ...jointLineChange('Tibial joint line', before.jointLine.tibial, after.jointLine.tibial),
    ...moved.slice(0, TOLD),
    ...(more > 0 ? [`${more} more ${more === 1 ? 'measurement' : 'measurements'}`] : []),
  ];
}

function constructChange(before: Plan, after: Plan): string[] {
  const [a, b] = [before.construct, after.construct];
  if (a.kind !== b.kind) {
    const words = {
      solved: 'a construct is proposed now',
      infeasible: 'no construct fits any more',
      'not-attempted': 'no construct can be proposed any more',
    };
    return [`Construct: ${words[b.kind]}`];
  }
  if (a.kind !== 'solved' || b.kind !== 'solved') return [];
  const parts = changedParts(a.answer.best.construct, b.answer.best.construct);
  return parts.length > 0 ? [`Construct: ${parts.join(', ')}`] : [];
}

const PART_WORDS: readonly (readonly [keyof Construct, string])[] = [
  ['level', 'constraint'],
  ['femur', 'femoral component'],
  ['distalAugments', 'distal augments'],
  ['posteriorAugments', 'posterior augments'],
  ['tray', 'tray'],
  ['tibialAugments', 'tibial augments'],
  ['insert', 'insert'],
  ['femoralStem', 'femoral stem'],
  ['femoralOffset', 'femoral offset'],
  ['tibialStem', 'tibial stem'],
  ['tibialOffset', 'tibial offset'],
];

const changedParts = (a: Construct, b: Construct): string[] =>
  PART_WORDS.filter(([key]) => JSON.stringify(a[key]) !== JSON.stringify(b[key])).map(
    ([, words]) => `another ${words}`,
  );

function jointLineChange(
  label: string,
  before: Plan['jointLine']['femoral'],
  after: Plan['jointLine']['femoral'],
): string[] {
  if (!before.ok && !after.ok) return [];
  if (!after.ok) return [`${label}: no estimate any more`];
  if (!before.ok) return [`${label}: ${withUnit(after.value.shiftMm)} off`];
  if (Math.abs(after.value.shiftMm - before.value.shiftMm) < 0.05) return [];
  return [`${label}: ${withUnit(before.value.shiftMm)} → ${withUnit(after.value.shiftMm)} off`];
}

function movedMeasurements(before: Plan, after: Plan): string[] {
  const key = (m: Measurement): string => `${m.id} ${m.side} ${m.film ?? ''}`;
  const old = new Map(before.measurements.map((m) => [key(m), m]));
  return after.measurements
    .flatMap((m) => {
      const was = old.get(key(m))?.value ?? null;
      if (was === null && m.value === null) return [];
      if (was === null || m.value === null)
        return [{ text: `${m.label}: ${worded(was, m)} → ${worded(m.value, m)}`, by: 99 }];
      const by = Math.abs(m.value - was);
      if (by < (LEAST[m.unit] ?? 0.005)) return [];
      return [{ text: `${m.label}: ${worded(was, m)} → ${worded(m.value, m)}`, by: by / (m.sd || 1) }];
    })
    .sort((a, b) => b.by - a.by)
    .map((line) => line.text);
}

const worded = (value: number | null, m: Measurement): string => (value === null ? '–' : withUnit(value, m.unit));
