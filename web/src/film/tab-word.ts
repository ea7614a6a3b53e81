import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { sideWord, VIEW_WORDS } from '../parts/words.ts';

/** View, with the side or date added where two films would be called alike. */
export function tabWord(film: CaseFilm, all: readonly CaseFilm[]): string {
  const alike = all.filter((f) => f.view === film.view);
  if (alike.length < 2) return VIEW_WORDS[film.view];
  const sides = new Set(alike.map((f) => f.side)).size > 1 ? `, ${sideWord(film.side).toLowerCase()}` : '';
  const roles = new Set(alike.map((f) => f.role)).size > 1 && film.role !== 'present' ? ', earlier' : '';
  const last = sides || roles ? '' : ` ${alike.indexOf(film) + 1}`;
  return `${VIEW_WORDS[film.view]}${sides}${roles}${last}`;
}
