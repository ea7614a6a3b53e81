import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import type { CaseFile } from './case.ts';
import { comparePlans } from './compare-plans.ts';
import { makePlan } from './make-plan.ts';
import type { Plan } from './plan.ts';
import { planChangesInWords } from './plan-changes-in-words.ts';
import { notTheSameKnee } from './same-knee.ts';

const example = JSON.parse(readFileSync(new URL('../../catalogues/demo.json', import.meta.url), 'utf8')) as Catalogue;

const before = makePlan(squareKnee(), example);
/** With 6 mm less bone under the medial condyle. */
const after = makePlan(squareKnee({ ap: { 'femoral-bone-distal-medial': [-20, 20] } }), example);

const bestOf = ({ construct }: Plan) => {
  if (construct.kind !== 'solved') throw new Error('The square knee is solved.');
  return construct.answer.best;
};

describe('PLAN-19 what differs between two plans, in words', () => {
  test('parts by what tells them apart, then gaps and cost with both numbers', () => {
    const words = planChangesInWords(before, after, example);
    const part = (plan: Plan) =>
      example.femoralAugments.find((a) => a.ref === bestOf(plan).construct.distalAugments.medial)?.thicknessMm;
    expect(words).toContain(`Distal augment ${part(after)} mm on the medial side instead of ${part(before)} mm`);
    expect(words).toContain(
      `Cost of the construct: ${bestOf(before).cost.toFixed(2)} → ${bestOf(after).cost.toFixed(2)}`,
    );
    expect(words.findIndex((w) => w.startsWith('Distal augment'))).toBeLessThan(
      words.findIndex((w) => w.startsWith('Cost')),
    );
  });

  test('a gap of which one side changed is told with both sides, before and after', () => {
    const low = makePlan(squareKnee({ ap: { 'tray-medial-edge': [-36, -13] } }), example);
    const both = (plan: Plan, gap: 'extensionLaxityMm' | 'flexionLaxityMm') =>
      (['medial', 'lateral'] as const)
        .map((side) => (Math.round(10 * bestOf(plan).effect[gap][side]) / 10 + 0).toFixed(1).replace('-', '−'))
        .join(' / ');
    const words = planChangesInWords(before, low, example);
    const told = words.filter((w) => w.includes('gap, medial / lateral'));
    expect(told.length).toBeGreaterThan(0);
    for (const [gap, label] of [
      ['extensionLaxityMm', 'Extension gap'],
      ['flexionLaxityMm', 'Flexion gap'],
    ] as const)
      if (both(before, gap) !== both(low, gap))
        expect(told).toContain(`${label}, medial / lateral: ${both(before, gap)} → ${both(low, gap)} mm`);
  });

  test('plans of two catalogues tell parts by reference', () => {
    const words = planChangesInWords(before, after, null);
    const ref = (plan: Plan) => bestOf(plan).construct.distalAugments.medial;
    expect(words).toContain(`Distal augment, medial: ${ref(before)} → ${ref(after)}`);
  });

  test('a plan against itself tells nothing; without a catalogue no construct is there any more', () => {
    expect(planChangesInWords(before, before, example)).toEqual([]);
    const none = makePlan(squareKnee(), null);
    const gone = planChangesInWords(before, none, null);
    expect(gone[0]).toBe('No construct can be proposed any more');
    expect(gone.filter((w) => /gap|Cost/.test(w))).toEqual([]);
    expect(planChangesInWords(none, before, null)[0]).toBe('A construct is proposed now');
  });

  test('measurements: those that moved most against their spread come first, what came or went before them', () => {
    const marks = { 'medial-epicondyle': [-43, 30], 'tray-medial-edge': [-36, -13] } as const;
    const far = makePlan(squareKnee({ ap: marks }), example);
    const moved = comparePlans(before, far).filter((c) => c.about === 'measurement');
    const words = planChangesInWords(before, far, example);
    const told = words.flatMap((w) => moved.filter(({ label }) => w.startsWith(`${label}: `)));
    expect(told.length).toBe(moved.length);
    expect(moved.length).toBeGreaterThan(3);
    const steps = told.map(({ before: b, after: a, sd }) =>
      typeof b === 'number' && typeof a === 'number' ? Math.abs(a - b) / (sd || 1) : Number.POSITIVE_INFINITY,
    );
    expect(steps).toEqual(steps.toSorted((x, y) => y - x));
  });

  test('a ratio moves by less than a millimetre does before it is news', () => {
    const ratio = before.measurements.find((m) => m.unit === '1' && m.value !== null);
    if (!ratio) throw new Error('The square knee has a ratio.');
    const by = (step: number): Plan => ({
      ...before,
      measurements: before.measurements.map((m) =>
        m === ratio && m.value !== null ? { ...m, value: m.value + step } : m,
      ),
    });
    expect(comparePlans(before, by(0.004))).toEqual([]);
    expect(comparePlans(before, by(0.02)).map((c) => [c.about, c.unit])).toEqual([['measurement', '1']]);
  });

  test('what is newly missing or no longer so is told as such', () => {
    const file = squareKnee();
    const { examination: _, ...unseen } = file;
    const less = makePlan(unseen, example);
    expect(planChangesInWords(before, less, example).some((w) => w.startsWith('Missing: '))).toBe(true);
    expect(planChangesInWords(less, before, example).some((w) => w.startsWith('No longer missing: '))).toBe(true);
  });
});

describe('whether two cases are of one knee', () => {
  const person = { id: 'A-1', birthDate: '1950-02-03', sex: 'female', name: 'Doe, Ann' } as const;
  const file: CaseFile = { ...squareKnee(), patient: person };
  const other = (patient: CaseFile['patient']) => notTheSameKnee(file, { ...file, patient });

  test('another side, number, birth date or sex is named; another way to write a name and what is not stated are not', () => {
    expect(other(person)).toEqual([]);
    expect(other({})).toEqual([]);
    expect(other({ ...person, name: 'A. Doe' })).toEqual([]);
    expect(other({ ...person, id: 'A-2' }).map((r) => r.field)).toEqual(['patient.id']);
    expect(other({ birthDate: '1950-03-02', sex: 'male' }).map((r) => r.field)).toEqual([
      'patient.birthDate',
      'patient.sex',
    ]);
    const left = notTheSameKnee(file, { ...file, side: file.side === 'left' ? 'right' : 'left' });
    expect(left.map((r) => r.code)).toEqual(['another-side']);
    expect(left[0]?.message).toContain(file.side);
  });
});
