import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import { panesOf } from './panes.ts';

const film = (id: string, more: Partial<CaseFilm> = {}): CaseFilm => ({
  id,
  file: `${id}.dcm`,
  view: 'ap',
  side: 'right',
  role: 'present',
  scaleFacts: { volumetric: false, rows: 10, columns: 10, derived: false },
  ...more,
});
const right = film('ap', { takenOn: '2025-03-10' });
const long = film('long', { view: 'long-leg', side: 'both' });
const left = film('ap-left', { side: 'left', takenOn: '2025-01-01' });
const older = film('ap-left-old', { side: 'left', takenOn: '2019-01-01' });
const keys = (shown: readonly string[], otherKnee: boolean, films = [right, long, older, left]) =>
  panesOf(films, shown, { side: 'right', otherKnee }).map((p) => p.key);

describe('films side by side', () => {
  test('stand in the order chosen, four at most', () => {
    expect(keys(['long', 'ap'], false)).toEqual(['long', 'ap']);
    expect(keys(['ap', 'long', 'ap-left', 'ap-left-old'], true)).toHaveLength(4);
  });

  test('the other knee stands beside the first film, mirrored: of its own view, nearest in date', () => {
    const [, beside] = panesOf([right, long, older, left], ['ap'], { side: 'right', otherKnee: true });
    expect(beside).toMatchObject({ key: 'ap-left mirrored', side: 'left', otherKnee: true });
  });

  test('on a film of both legs it is the same film, seen from the other side', () => {
    const panes = panesOf([long], ['long'], { side: 'right', otherKnee: true });
    expect(panes.map((p) => [p.film.id, p.side])).toEqual([
      ['long', 'right'],
      ['long', 'left'],
    ]);
  });

  test('without a film of the other knee nothing stands beside', () => {
    expect(keys(['ap'], true, [right])).toEqual(['ap']);
  });
});
