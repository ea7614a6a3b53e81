import { createHash } from 'node:crypto';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { statedOtherwise } from '@gapline/core/plan/same-knee.ts';
import { caseFaults, readCase } from '@gapline/exchange/case/read-case.ts';
import type { Film, Identity } from '@gapline/film/film.ts';
import { readIdentity } from '@gapline/film/identity.ts';
import { readFilm } from '@gapline/film/read-film.ts';
import { statedSide } from '@gapline/film/side.ts';

/** A case folder as opened: the case, and each film that was read. */
export type OpenedCase =
  | { readonly ok: true; readonly file: CaseFile; readonly films: ReadonlyMap<string, Film> }
  | { readonly ok: false; readonly reasons: readonly Reason[] };

/**
 * Opens a case folder. Every film is read and what its file says is held against case.json: bytes, size, whose it is and
 * which side. Any difference is refused by name; nothing is corrected silently.
 */
export function openCase(folder: string): OpenedCase {
  const path = join(folder, 'case.json');
  if (!existsSync(path)) return no(missingCase(folder));
  const text = readFileSync(path, 'utf8');
  const faults = caseFaults(text, path);
  if (faults.length > 0) return { ok: false, reasons: faults };
  const read = readCase(text, path);
  if (!read.ok) return no(read.reason);
  const films = new Map<string, Film>();
  const reasons: Reason[] = [];
  for (const [i, film] of read.value.films.entries()) {
    const opened = openFilm(folder, { film, i, file: read.value });
    reasons.push(...opened.reasons);
    if (opened.film) films.set(film.id, opened.film);
  }
  return reasons.length > 0 ? { ok: false, reasons } : { ok: true, file: read.value, films };
}

const no = (reason: Reason): OpenedCase => ({ ok: false, reasons: [reason] });

function missingCase(folder: string): Reason {
  const what = existsSync(folder)
    ? statSync(folder).isDirectory()
      ? 'holds no case.json'
      : 'is a file'
    : 'does not exist';
  return {
    code: 'no-case',
    message: `${folder} ${what}.`,
    file: join(folder, 'case.json'),
    mend: 'Name a folder that holds case.json and its films; "gapline demo DIR" writes one.',
  };
}

interface FilmOfCase {
  readonly film: CaseFilm;
  readonly i: number;
  readonly file: CaseFile;
}

function openFilm(folder: string, { film, i, file }: FilmOfCase): { film: Film | null; reasons: readonly Reason[] } {
  const at = (field: string) => ({ file: film.file, field: `films[${i}].${field}` });
  if (basename(film.file) !== film.file) {
    const message = `${film.file} is not a plain file name.`;
    return {
      film: null,
      reasons: [
        {
          code: 'film-outside-folder',
          message,
          ...at('file'),
          mend: 'Put the film into the case folder and give its name.',
        },
      ],
    };
  }
  const path = join(folder, film.file);
  if (!existsSync(path)) {
    const message = `The film ${film.file} is not in the case folder.`;
    return {
      film: null,
      reasons: [
        { code: 'film-missing', message, ...at('file'), mend: 'Copy it there, or take the film out of case.json.' },
      ],
    };
  }
  const bytes = readFileSync(path);
  const reasons: Reason[] = [];
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  if (film.sha256 !== undefined && film.sha256 !== sha256) {
    const message = `${film.file} is not the file that case.json was made with: its SHA-256 differs.`;
    reasons.push({
      code: 'film-changed',
      message,
      ...at('sha256'),
      mend: 'Restore the film, or mark the new one anew.',
    });
  }
  const read = readFilm(bytes, film.file);
  if (!read.ok) return { film: null, reasons: [...reasons, { ...read.reason, ...at('file') }] };
  const { rows, columns } = film.scaleFacts;
  if (read.value.rows !== rows || read.value.columns !== columns) {
    const message = `${film.file} has ${read.value.columns} x ${read.value.rows} pixels, case.json says ${columns} x ${rows}.`;
    reasons.push({
      code: 'film-size-differs',
      message,
      ...at('scaleFacts'),
      mend: 'Correct case.json; marks of another size do not fit.',
    });
  }
  const identity = readIdentity(bytes);
  if (identity.ok) reasons.push(...identityFaults(identity.value, { film, i, file }));
  reasons.push(...sideFaults(read.value, { film, i, file }));
  return { film: read.value, reasons };
}

/** What file and case both state about the patient must agree. */
const identityFaults = (identity: Identity, { film, i, file }: FilmOfCase): Reason[] =>
  statedOtherwise(identity, file.patient).map(({ field, one, other }) => ({
    code: 'film-of-another-patient',
    message: `${film.file} states another patient: ${field} is “${one}”, in case.json “${other}”.`,
    file: film.file,
    field: `films[${i}], patient.${field}`,
    mend: 'Take the film out of the case, or correct the patient in case.json.',
  }));

function sideFaults(read: Film, { film, i }: FilmOfCase): Reason[] {
  const stated = statedSide(read.laterality);
  if (film.sideConfirmed || stated.kind !== 'agree' || stated.side === film.side) return [];
  return [
    {
      code: 'film-side-differs',
      message: `${film.file} states ${stated.side === 'both' ? 'both sides' : `the ${stated.side} side`}, case.json says ${film.side}. The film is held.`,
      file: film.file,
      field: `films[${i}].side`,
      mend: 'Read the marker on the film; correct "side", or confirm it with "sideConfirmed": { "by": ..., "on": ... }.',
    },
  ];
}
