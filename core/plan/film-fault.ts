import type { Cannot } from '../measure/outcome.ts';
import type { CaseFilm } from './case.ts';
import { refuse } from './refuse.ts';

const SIDES: readonly string[] = ['right', 'left'];
const VIEWS: readonly string[] = [
  'long-leg',
  'ap',
  'lateral',
  'skyline',
  'stress-varus',
  'stress-valgus',
  'ct',
  'other',
];
const ROLES: readonly string[] = ['present', 'before-first-replacement', 'after-first-replacement'];

/** Why a film cannot stand in a case, or null where it can. */
export function filmFault(film: CaseFilm): Cannot | null {
  const at = `film ${film.id}`;
  if (film.id === '' || film.id.length > 100)
    return refuse('bad-film-id', 'A film needs an id.', 'film.id', 'Give a short id.');
  if (film.file === '' || /[/\\\0]/.test(film.file)) {
    return refuse(
      'bad-film-file',
      `Film ${film.id}: the file name must be a plain name.`,
      at,
      'Give the name without a folder.',
    );
  }
  if (film.sha256 !== undefined && !/^[0-9a-f]{64}$/.test(film.sha256)) {
    return refuse('bad-film-hash', `Film ${film.id}: the SHA-256 is malformed.`, at, 'Import the film again.');
  }
  if (!VIEWS.includes(film.view))
    return refuse('unknown-view', `Film ${film.id}: unknown view.`, at, `Say one of ${VIEWS.join(', ')}.`);
  if (film.side !== 'both' && !SIDES.includes(film.side)) {
    return refuse('bad-side', `Film ${film.id}: the side is missing.`, at, 'Say right, left or both.');
  }
  if (!ROLES.includes(film.role))
    return refuse('unknown-role', `Film ${film.id}: unknown role.`, at, `Say one of ${ROLES.join(', ')}.`);
  const { rows, columns } = film.scaleFacts;
  if (![rows, columns].every((n) => Number.isInteger(n) && n > 0)) {
    return refuse(
      'bad-film-size',
      `Film ${film.id}: rows and columns must be whole numbers above 0.`,
      at,
      'Import the film again.',
    );
  }
  return null;
}
