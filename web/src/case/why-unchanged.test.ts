import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import { whyUnchanged } from './why-unchanged.ts';

const film = (id: string, view: CaseFilm['view']) => ({ id, view, side: 'right' }) as CaseFilm;
const mark = (on: string, x: number, more: Partial<Mark> = {}): Mark => ({
  landmark: 'femoral-bone-distal-medial',
  side: 'right',
  film: on,
  points: [{ x, y: 20 }],
  how: 'by-hand',
  ...more,
});
const withMarks = (...marks: Mark[]): CaseFile => ({
  ...bareCase,
  films: [film('whole', 'long-leg'), film('knee', 'ap')],
  marks,
});

describe('why a moved mark changed nothing', () => {
  test('the landmark is marked on the long-leg film too', () => {
    const why = whyUnchanged(
      withMarks(mark('whole', 1), mark('knee', 5)),
      withMarks(mark('whole', 1), mark('knee', 9)),
    );
    expect(why).toContain('long-leg film');
  });

  test('nothing is told where it is not, where it is of the other knee, or where the long-leg mark itself moved', () => {
    const alone = [withMarks(mark('knee', 5)), withMarks(mark('knee', 9))] as const;
    expect(whyUnchanged(...alone)).toBeNull();
    const left = mark('whole', 1, { side: 'left' });
    expect(whyUnchanged(withMarks(left, mark('knee', 5)), withMarks(left, mark('knee', 9)))).toBeNull();
    const moved = [mark('whole', 1), mark('whole', 2)] as const;
    expect(whyUnchanged(withMarks(moved[0], mark('knee', 5)), withMarks(moved[1], mark('knee', 5)))).toBeNull();
    expect(whyUnchanged(withMarks(mark('whole', 1)), withMarks(mark('whole', 1)))).toBeNull();
  });
});
