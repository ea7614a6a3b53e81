import type { Mark } from '../landmarks/mark.ts';
import { sameLandmark } from '../landmarks/repeated-mark.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { putRepeat, putSkip, removeRepeat, removeSkip, withoutMarking } from './apply-marking.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import type { Edit } from './edit.ts';
import { filmFault } from './film-fault.ts';
import { markFault } from './mark-fault.ts';
import { put } from './put-in-list.ts';
import { refuse } from './refuse.ts';
import { setField } from './set-field.ts';

/** Two marks of one landmark, side and film are one and the same mark. */
export const sameMark = sameLandmark;

/** Deepest nesting of groups; a bound against nonsense. */
const DEEPEST_GROUP = 8;

/**
 * The case after one edit. Pure: the case given is left as it is. Refuses, with the field named, an
 * edit that is malformed, reaches outside the editable fields, or names a film or mark that is not there.
 * A group is applied whole or not at all.
 */
export function applyEdit(file: CaseFile, edit: Edit): Outcome<CaseFile> {
  return apply(file, edit, 0);
}

function apply(file: CaseFile, edit: Edit, depth: number): Outcome<CaseFile> {
  switch (edit.kind) {
    case 'put-mark':
      return putMark(file, edit.mark, edit.at);
    case 'remove-mark':
      return removeMark(file, edit);
    case 'put-repeat':
      return putRepeat(file, edit.repeat, edit.at);
    case 'remove-repeat':
      return removeRepeat(file, edit);
    case 'put-skip':
      return putSkip(file, edit.skip, edit.at);
    case 'remove-skip':
      return removeSkip(file, edit);
    case 'put-film':
      return putFilm(file, edit.film, edit.at);
    case 'remove-film':
      return removeFilm(file, edit.film);
    case 'set':
      return setField(file, edit.field, edit.value);
    case 'group':
      return applyGroup(file, edit.edits, depth);
    default:
      return refuse('unknown-edit', 'This kind of edit is not known.', 'kind', 'Use one of the documented edits.');
  }
}

function applyGroup(file: CaseFile, edits: readonly Edit[], depth: number): Outcome<CaseFile> {
  if (depth >= DEEPEST_GROUP) {
    return refuse('group-too-deep', 'Groups of edits are nested too deeply.', 'edits', 'Flatten the group.');
  }
  let current = file;
  for (const edit of edits) {
    const next = apply(current, edit, depth + 1);
    if (!next.ok) return next;
    current = next.value;
  }
  return ok(current);
}

function putMark(file: CaseFile, mark: Mark, at?: number): Outcome<CaseFile> {
  const fault = markFault(file, mark);
  if (fault) return fault;
  const index = file.marks.findIndex((m) => sameMark(m, mark));
  return ok({ ...file, marks: put(file.marks, mark, { index, at }) });
}

function removeMark(file: CaseFile, of: Pick<Mark, 'landmark' | 'side' | 'film'>): Outcome<CaseFile> {
  const marks = file.marks.filter((m) => !sameMark(m, of));
  if (marks.length === file.marks.length) {
    return refuse(
      'no-such-mark',
      `There is no mark ${of.landmark} (${of.side}) on that film.`,
      `mark ${of.landmark}`,
      'Reload the case.',
    );
  }
  return ok({ ...file, marks });
}

function putFilm(file: CaseFile, film: CaseFilm, at?: number): Outcome<CaseFile> {
  const fault = filmFault(film);
  if (fault) return fault;
  const index = file.films.findIndex((f) => f.id === film.id);
  return ok({ ...file, films: put(file.films, film, { index, at }) });
}

function removeFilm(file: CaseFile, id: string): Outcome<CaseFile> {
  if (!file.films.some((f) => f.id === id)) {
    return refuse('no-such-film', `The case has no film "${id}".`, `film ${id}`, 'Reload the case.');
  }
  return ok({ ...withoutMarking(file, id), films: file.films.filter((f) => f.id !== id) });
}
