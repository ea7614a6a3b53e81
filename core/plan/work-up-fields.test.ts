import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fullWorkUp } from '../../cases/full-work-up.ts';
import { applyEdit } from './apply-edit.ts';
import type { CaseFile } from './case.ts';
import type { Edit } from './edit.ts';
import { editableField } from './editable-fields.ts';
import type { EditableField } from './field-kinds.ts';
import { invertEdit } from './invert-edit.ts';
import { WORK_UP_FIELDS } from './work-up-fields.ts';

const bare: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'case-1',
  title: 'Invented knee',
  side: 'left',
  patient: {},
  films: [],
  marks: [],
};

/** Pointers of all that can be set at once: single values, and pairs that only make sense whole. */
function leaves(field: EditableField, at: string): readonly string[] {
  if (field.kind === 'value' || field.whole) return [at];
  return [...field.fields].flatMap(([name, inner]) => leaves(inner, `${at}/${name}`));
}
const LEAVES = leaves(WORK_UP_FIELDS, '/workUp');

function valueAt(root: unknown, pointer: string): unknown {
  let value = root;
  for (const step of pointer.slice(1).split('/')) value = (value as Record<string, unknown> | undefined)?.[step];
  return value;
}
const full = { workUp: fullWorkUp() };
const sets: readonly Edit[] = LEAVES.flatMap((field): Edit[] => {
  const value = valueAt(full, field);
  return value === undefined ? [] : [{ kind: 'set', field, value }];
});
const mustApply = (file: CaseFile, edit: Edit): CaseFile => {
  const after = applyEdit(file, edit);
  if (!after.ok) throw new Error(`${after.reason.field}: ${after.reason.message}`);
  return after.value;
};
const codeOf = (field: string, value: unknown) => {
  const after = applyEdit(bare, { kind: 'set', field, value });
  return after.ok ? 'ok' : after.reason.code;
};

describe('fields of the work-up', () => {
  test('every field that is no strength stands in the full example, so that each below is tried', () => {
    const left = LEAVES.filter((f) => !f.startsWith('/workUp/strengths/') && valueAt(full, f) === undefined);
    expect(left).toEqual([]);
    expect(sets.length).toBeGreaterThan(250);
  });

  test('each field alone, set in an empty case, makes its sections; its inverse takes them away again', () => {
    for (const edit of sets) {
      const after = mustApply(bare, edit);
      expect(valueAt(after, edit.kind === 'set' ? edit.field : '')).toEqual(edit.kind === 'set' ? edit.value : null);
      expect(mustApply(after, invertEdit(bare, edit))).toEqual(bare);
    }
  });

  test('all fields one by one give the full example, in whatever order', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...sets], { minLength: sets.length }), (order) => {
        expect(order.reduce(mustApply, bare).workUp).toEqual(full.workUp);
      }),
      { numRuns: 5 },
    );
  });

  test('sets and clears in any order lead back through their inverses', () => {
    const anyEdit = fc
      .tuple(fc.constantFrom(...sets), fc.boolean())
      .map(([edit, clear]): Edit => (clear && edit.kind === 'set' ? { ...edit, value: null } : edit));
    fc.assert(
      fc.property(fc.array(anyEdit, { maxLength: 20 }), (edits) => {
        let file = bare;
        const back: Edit[] = [];
        for (const edit of edits) {
          back.push(invertEdit(file, edit));
          file = mustApply(file, edit);
        }
        for (const edit of back.reverse()) file = mustApply(file, edit);
        expect(file).toEqual(bare);
      }),
      { numRuns: 200 },
    );
  });

  test('results are kept as they were typed, sound or not', () => {
    const typed = (more: object) => codeOf('/workUp/infection/labResults', [{ id: 'r', analyte: 'crp', ...more }]);
    for (const more of [
      { value: 12 },
      { value: -3, unit: 'mm/h' },
      { value: 'much', takenOn: '2026-02-30' },
      { value: 1, takenOn: '2999-01-01' },
      { value: '' },
    ])
      expect(typed(more)).toBe('ok');
    expect(typed({ value: null })).toBe('value-not-accepted');
    expect(typed({ value: Number.NaN })).toBe('value-not-accepted');
    expect(typed({ value: 1, unheardOf: 1 })).toBe('value-not-accepted');
    expect(typed({ analyte: 'magic', value: 1 })).toBe('value-not-accepted');
  });

  test.each([
    ['/workUp/history/examination/flexionDeg', 'far'],
    ['/workUp/history/examination/opening30Mm', { medial: 3 }],
    ['/workUp/history/asa', 6],
    ['/workUp/history/symptoms/stairs', 'maybe'],
    ['/workUp/history/scars', [{ id: 's', points: [[0.5, 1.2]] }]],
    ['/workUp/history/operations', [{ id: 'a', kind: 'transplant' }]],
    [
      '/workUp/history/operations',
      [
        { id: 'a', kind: 'other' },
        { id: 'a', kind: 'other' },
      ],
    ],
    ['/workUp/infection/sinus', true],
    ['/workUp/infection/lastOperationOn', '2026-02-30'],
    ['/workUp/evidence/giving-way', 'yes'],
    ['/workUp/lucentLines/patella', { widths: [0, 0, 0, 0, 0, 0, 0] }],
    ['/workUp/infectionDecision', { standing: 'excluded' }],
    ['/workUp/infectionDecision/reason', 'alone'],
    ['/workUp/causes', [{ cause: 'bad-luck', reason: '' }]],
    ['/workUp/preTest', 1],
    ['/workUp/strengths/giving-way/instability', 0],
  ])('%s does not take %j', (field, value) => {
    expect(codeOf(field, value)).toBe('value-not-accepted');
  });

  test('names that are no field lead nowhere', () => {
    for (const field of ['/workUp/evidence/__proto__', '/workUp/unheardOf', '/workUp/infection/labResults/0'])
      expect(editableField(field)).toBeNull();
    const hostile = JSON.parse('[{"id":"a","kind":"other","__proto__":{"polluted":1}}]') as unknown;
    expect(codeOf('/workUp/history/operations', hostile)).toBe('value-not-accepted');
  });
});
