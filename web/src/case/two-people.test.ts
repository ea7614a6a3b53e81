import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { describe, expect, test } from 'vitest';
import { applyAll, pendingOf, rebase } from './pending.ts';
import { signed } from './sign-edits.ts';

const film: CaseFilm = {
  id: 'film 1',
  file: 'ap.dcm',
  view: 'ap',
  side: 'right',
  role: 'present',
  scaleFacts: { volumetric: false, rows: 100, columns: 100, derived: false },
};
const EMPTY: CaseFile = { ...bareCase, id: 'c', films: [film] };
const tip = (x: number, by?: string): Mark => ({
  landmark: 'fibular-tip',
  side: 'right',
  film: film.id,
  points: [{ x, y: 5 }],
  how: 'by-hand',
  ...(by ? { by } : {}),
});
const put = (mark: Mark): Edit => ({ kind: 'put-mark', mark });
const withMark = (mark: Mark): CaseFile => ({ ...EMPTY, marks: [mark] });
const afterRebase = (file: CaseFile, r: ReturnType<typeof rebase>): CaseFile => {
  const after = applyAll(
    file,
    r.kept.flatMap((p) => p.edits),
  );
  if (!after) throw new Error('a kept change cannot be made');
  return after;
};

describe('LM-10 changes on a case that somebody else changed meanwhile', () => {
  test('LM-10 a mark placed anew by both, each with a name: both are kept, the second as a repeat', () => {
    const mine = pendingOf('1', EMPTY, { edits: [put(tip(8, 'Bo'))], label: 'Tip', by: 'Bo' });
    const theirs = withMark(tip(3, 'Ada'));
    const r = rebase(theirs, [mine]);
    expect([r.kept.length, r.beside.length, r.dropped.length]).toEqual([1, 1, 0]);
    expect(afterRebase(theirs, r)).toEqual({
      ...theirs,
      repeats: [{ ...tip(8, 'Bo'), round: 2, why: 'repeat' }],
    });
    expect(rebase(afterRebase(theirs, r), r.kept)).toMatchObject({ kept: [], dropped: [] });
  });

  test('LM-10 a mark that both moved: a conflict; what this page moves on after that moves on in the second place', () => {
    const before = withMark(tip(1));
    const first = pendingOf('1', before, { edits: [put(tip(8))], label: 'Moved' });
    const second = pendingOf('2', withMark(tip(8)), { edits: [put(tip(9))], label: 'Moved' });
    const theirs = withMark(tip(3));
    const after = afterRebase(theirs, rebase(theirs, [first, second]));
    expect(after.marks).toEqual([tip(3)]);
    expect(after.repeats).toEqual([{ ...tip(9), round: 2, why: 'conflict' }]);
  });

  test('LM-10 of a group the marks are kept although a further one was placed elsewhere; a field is not forced', () => {
    const notch: Mark = { ...tip(4), landmark: 'femoral-notch' };
    const both: Edit = { kind: 'group', label: 'Two', edits: [put(tip(8)), put(notch)] };
    const theirs = withMark(tip(3));
    const r = rebase(theirs, [pendingOf('1', EMPTY, { edits: [both], label: 'Two' })]);
    expect(afterRebase(theirs, r)).toMatchObject({ marks: [tip(3), notch], repeats: [{ points: [{ x: 8, y: 5 }] }] });

    const field: Edit = { kind: 'set', field: '/title', value: 'Mine' };
    const refused = rebase({ ...EMPTY, title: 'Theirs' }, [pendingOf('1', EMPTY, { edits: [field], label: 'Title' })]);
    expect(refused.dropped).toHaveLength(1);
  });

  test('LM-10 two people in the same round of repeats: neither takes the place of the other', () => {
    const repeat = (x: number): Edit => ({ kind: 'put-repeat', repeat: { ...tip(x), round: 2, why: 'repeat' } });
    const theirs = applyAll(EMPTY, [repeat(3)]);
    if (!theirs) throw new Error('not possible');
    const r = rebase(theirs, [pendingOf('1', EMPTY, { edits: [repeat(8)], label: 'Again' })]);
    expect(afterRebase(theirs, r).repeats?.map((p) => [p.round, p.points[0]?.x])).toEqual([
      [2, 3],
      [3, 8],
    ]);
  });

  test('LM-11 marks carry the name of who placed them, and keep one that they have', () => {
    const edits: Edit[] = [{ kind: 'group', label: 'x', edits: [put(tip(1)), put(tip(2, 'Ada'))] }];
    expect(signed(edits, 'Bo')).toEqual([
      { kind: 'group', label: 'x', edits: [put(tip(1, 'Bo')), put(tip(2, 'Ada'))] },
    ]);
    expect(signed(edits, undefined)).toBe(edits);
  });
});
