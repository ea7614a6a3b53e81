import type { CaseFile, CaseFilm } from './case.ts';
import type { CaseFinding } from './check-case.ts';
import { ballFindings } from './check-films-ball.ts';
import { markFindings } from './check-films-marks.ts';
import { personFindings } from './check-films-person.ts';
import { turnedFindings } from './check-films-turned.ts';

/**
 * Films that are given twice, of the wrong side, of another date or facing a way that their view does not allow (PLAN-1 to PLAN-4), of another person
 * (FILM-8), mirrored (SIDE-5, SIDE-6), too rotated (FILM-9) or scaled by a ball that lay off the bone (FILM-10).
 * A film that was taken of the other knee for comparison is held too until a person confirms its side:
 * a wrong side is the costliest mistake that a plan can carry.
 */
export function filmFindings(file: CaseFile): CaseFinding[] {
  return [
    ...file.films.flatMap((film, i) => oneFilm(file, film, i)),
    ...dates(file),
    ...personFindings(file),
    ...markFindings(file),
    ...turnedFindings(file),
    ...ballFindings(file),
  ];
}

function oneFilm(file: CaseFile, film: CaseFilm, i: number): CaseFinding[] {
  const found: CaseFinding[] = [];
  const add = (remedy: CaseFinding['remedy'], code: string, field: string, [message, mend]: [string, string]) =>
    found.push({ code, message, file: film.file, field: `films[${i}].${field}`, mend, remedy, film: i });

  const sameId = file.films.findIndex((f) => f.id === film.id);
  const sameBytes = film.sha256 ? file.films.findIndex((f) => f.sha256 === film.sha256) : i;
  if (sameId < i) {
    const message = `Two films are called “${film.id}”; marks cannot tell them apart. The second is held.`;
    add('film-held', 'film-id-twice', 'id', [message, 'Give each film a name of its own.']);
  }
  if (sameBytes < i) {
    const message = `Film ${film.id} is the same picture as film ${file.films[sameBytes]?.id}. It is held.`;
    add('film-held', 'film-given-twice', 'sha256', [message, 'Remove one of the two films.']);
  }
  if (film.side !== 'both' && film.side !== file.side && !film.sideConfirmed) {
    const message = `Film ${film.id} is of the ${film.side} knee, the case is of the ${file.side}. It is held until a person confirms.`;
    const mend = `Correct the side; or, if the film shows the ${film.side} knee on purpose, confirm its side.`;
    add('film-held', 'film-of-other-side', 'side', [message, mend]);
  }
  if (film.columnsTowards && !ALLOWED[film.view].includes(film.columnsTowards)) {
    const message = `The columns of a ${film.view} film cannot run towards “${film.columnsTowards}”. Film ${film.id} is held.`;
    const mend = `State ${ALLOWED[film.view].join(' or ')}; or correct the view.`;
    add('film-held', 'orientation-impossible', 'columnsTowards', [message, mend]);
  }
  return found;
}

const CORONAL = ['patient-left', 'patient-right'] as const;
const SAGITTAL = ['anterior', 'posterior'] as const;
const ALLOWED: Readonly<Record<CaseFilm['view'], readonly string[]>> = {
  'long-leg': CORONAL,
  ap: CORONAL,
  'stress-varus': CORONAL,
  'stress-valgus': CORONAL,
  skyline: CORONAL,
  lateral: SAGITTAL,
  ct: [...CORONAL, ...SAGITTAL],
  other: [...CORONAL, ...SAGITTAL],
};

/** Present films further apart than this, days, may not show the same knee (common practice, no source). */
const MOST_DAYS_APART = 180;

function dates(file: CaseFile): CaseFinding[] {
  const dated = file.films
    .map((film, i) => ({
      film,
      i,
      day: film.takenOn === undefined ? Number.NaN : Date.parse(film.takenOn) / 86_400_000,
    }))
    .filter((d) => Number.isFinite(d.day));
  const present = dated.filter((d) => d.film.role === 'present').sort((a, b) => a.day - b.day || a.i - b.i);
  const [first, last] = [present[0], present.at(-1)];
  const found: CaseFinding[] = [];
  if (first && last && last.day - first.day > MOST_DAYS_APART) {
    found.push({
      code: 'dates-mixed',
      message: `Films ${first.film.id} (${first.film.takenOn}) and ${last.film.id} (${last.film.takenOn}) are ${Math.round(last.day - first.day)} days apart and may not show the same state of the knee.`,
      file: first.film.file,
      field: `films[${first.i}].takenOn`,
      mend: 'Take new films, or give the older one the role that it has.',
      remedy: 'shown',
      film: first.i,
    });
  }
  for (const { film, i, day } of dated) {
    if (film.role === 'after-first-replacement' && last && day > last.day) found.push(newerThanPresent(film, i));
    if (film.role !== 'before-first-replacement' || !first || day < first.day) continue;
    found.push({
      code: 'dates-contradict',
      message: `Film ${film.id} (${film.takenOn}) is stated as from before the first replacement, but is no older than the present films.`,
      file: film.file,
      field: `films[${i}].role`,
      mend: 'Correct its role or its date.',
      remedy: 'film-held',
      film: i,
    });
  }
  return found;
}

/** An older date that is newer than every present film: one of the two is wrong (FILM-11). */
const newerThanPresent = (film: CaseFilm, i: number): CaseFinding => ({
  code: 'dates-contradict',
  message: `Film ${film.id} (${film.takenOn}) is stated as from after the first replacement, but is newer than every present film.`,
  file: film.file,
  field: `films[${i}].role`,
  mend: 'Correct its role or its date.',
  remedy: 'film-held',
  film: i,
});
