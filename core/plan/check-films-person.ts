import type { CaseFile, CaseFilm } from './case.ts';
import type { CaseFinding } from './check-case.ts';

/**
 * Films of different people in one case (FILM-8). Each film may carry a mark of the person named in its file: equal marks, same person. The mark
 * that most films carry is the case's, of equally many the one met first; films with another are held until a person confirms that both are one
 * person. Films without a mark (pictures, files without a name) are not judged.
 */
export function personFindings(file: CaseFile): CaseFinding[] {
  const marked = file.films.flatMap((film, i) => (film.personMark ? [{ film, i, mark: film.personMark }] : []));
  const own = mostFrequent(marked.filter(({ film }) => !film.personConfirmed).map(({ mark }) => mark));
  return marked
    .filter(({ film, mark }) => mark !== own && !film.personConfirmed)
    .map(({ film, i }) => finding(film, i, marked.find(({ mark }) => mark === own)?.film));
}

function mostFrequent(marks: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const m of marks) counts.set(m, (counts.get(m) ?? 0) + 1);
  let best: string | null = null;
  for (const [m, n] of counts) if (best === null || n > (counts.get(best) ?? 0)) best = m;
  return best;
}

const finding = (film: CaseFilm, i: number, other: CaseFilm | undefined): CaseFinding => ({
  code: 'film-of-another-person',
  message: `The file of film ${film.id} names another person than that of film ${other?.id ?? 'the others'}. It is held, with its marks.`,
  file: film.file,
  field: `films[${i}].personMark`,
  mend: 'Take it out of the case; or, where both are one person under two names or numbers, confirm that.',
  remedy: 'film-held',
  film: i,
});
