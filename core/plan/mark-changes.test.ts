import { describe, expect, test } from 'vitest';
import type { Mark } from '../landmarks/mark.ts';
import { applyEdit } from './apply-edit.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import type { Edit } from './edit.ts';
import { invertEdit } from './invert-edit.ts';
import { keepBoth, nextRound, openConflicts, takeInstead } from './keep-both.ts';
import { markChanges } from './mark-changes.ts';

const film: CaseFilm = {
  id: 'ap',
  file: 'ap.dcm',
  view: 'ap',
  side: 'left',
  role: 'present',
  scaleFacts: { volumetric: false, rows: 100, columns: 100, derived: false },
};
const tip = (x: number, by?: string): Mark => ({
  landmark: 'fibular-tip',
  side: 'left',
  film: 'ap',
  points: [{ x, y: 5 }],
  how: 'by-hand',
  ...(by ? { by } : {}),
});
const notch: Mark = { ...tip(1), landmark: 'femoral-notch' };
const base: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'k',
  title: 'Invented knee',
  side: 'left',
  patient: {},
  films: [film],
  marks: [tip(3, 'Ada')],
};
const after = (file: CaseFile, edit: Edit): CaseFile => {
  const next = applyEdit(file, edit);
  if (!next.ok) throw new Error(next.reason.message);
  return next.value;
};
const changes = (edit: Edit) => markChanges(edit, invertEdit(base, edit));

describe('LM-11 what a step changed', () => {
  test('LM-11 a mark moved, placed, taken away and put back as it was', () => {
    expect(changes({ kind: 'put-mark', mark: tip(9) })).toEqual([{ is: 'mark', before: tip(3, 'Ada'), after: tip(9) }]);
    expect(changes({ kind: 'put-mark', mark: notch })).toEqual([{ is: 'mark', before: null, after: notch }]);
    const { landmark, side, film: on } = tip(0);
    expect(changes({ kind: 'remove-mark', landmark, side, film: on })).toEqual([
      { is: 'mark', before: tip(3, 'Ada'), after: null },
    ]);
    expect(changes({ kind: 'put-mark', mark: tip(3, 'Ada') })).toEqual([]);
  });

  test('LM-11 of a group only first and last state of each mark are told; a film taken out takes its marks along', () => {
    const edits: Edit[] = [
      { kind: 'put-mark', mark: tip(4) },
      { kind: 'put-mark', mark: tip(6) },
      { kind: 'set', field: '/note', value: 'x' },
      { kind: 'put-skip', skip: { landmark: 'femoral-notch', side: 'left', film: 'ap', reason: 'destroyed' } },
    ];
    expect(changes({ kind: 'group', label: 'Several', edits }).map((c) => [c.is, c.before, c.after])).toEqual([
      ['mark', tip(3, 'Ada'), tip(6)],
      ['skip', null, { landmark: 'femoral-notch', side: 'left', film: 'ap', reason: 'destroyed' }],
    ]);
    expect(changes({ kind: 'remove-film', film: 'ap' })).toEqual([{ is: 'mark', before: tip(3, 'Ada'), after: null }]);
  });
});

describe('LM-10 two people place one mark at the same time', () => {
  test('LM-10 both placed it anew under two names: a repeat by another person; the first stays the mark', () => {
    const file = after(base, keepBoth(base, tip(8, 'Bo'), true));
    expect(file.marks).toEqual(base.marks);
    expect(file.repeats).toEqual([{ ...tip(8, 'Bo'), round: 2, why: 'repeat' }]);
    expect(openConflicts(file)).toEqual([]);
  });

  test.each([
    ['one moved it', tip(8, 'Bo'), false],
    ['one gave no name', tip(8), true],
    ['the names are the same', tip(8, ' ada '), true],
  ])('LM-10 %s: a conflict with both places, which counts for no spread', (_, mark, anew) => {
    const file = after(base, keepBoth(base, mark, anew));
    expect(openConflicts(file)).toEqual([{ ...mark, round: 2, why: 'conflict' }]);
    expect(file.marks).toEqual(base.marks);
  });

  test('LM-10 the mark that somebody took away meanwhile is put again, and a third place takes the next round', () => {
    expect(keepBoth({ ...base, marks: [] }, tip(8), false)).toEqual({ kind: 'put-mark', mark: tip(8) });
    const two = after(base, keepBoth(base, tip(8), false));
    expect(nextRound(two, tip(0))).toBe(3);
    expect(after(two, keepBoth(two, tip(9), false)).repeats?.map((r) => r.round)).toEqual([2, 3]);
  });

  test('LM-10 the other place is taken in one step, which undo takes back', () => {
    const two = after(base, keepBoth(base, tip(8, 'Bo'), false));
    const [other] = openConflicts(two);
    if (!other) throw new Error('no conflict');
    const chosen = after(two, takeInstead(other));
    expect([chosen.marks, chosen.repeats]).toEqual([[tip(8, 'Bo')], undefined]);
    expect(after(chosen, invertEdit(two, takeInstead(other)))).toEqual(two);
  });
});
