import type { Mark } from '../landmarks/mark.ts';
import { type RepeatedMark, type SkippedMark, sameRepeat } from '../landmarks/repeated-mark.ts';
import { applyEdit, sameMark } from './apply-edit.ts';
import type { CaseFile } from './case.ts';
import type { Edit } from './edit.ts';
import { pointerSteps } from './editable-fields.ts';

/**
 * The edit that takes `edit` back: applied to the case after `edit`, it gives the case before it, in
 * the same order of films and marks. For an edit that `applyEdit` refuses, the result is an empty group.
 */
export function invertEdit(file: CaseFile, edit: Edit): Edit {
  if (!applyEdit(file, edit).ok) return nothing('Nothing to take back');
  switch (edit.kind) {
    case 'put-mark': {
      const before = file.marks.find((m) => sameMark(m, edit.mark));
      const { landmark, side, film } = edit.mark;
      return before ? { kind: 'put-mark', mark: before } : { kind: 'remove-mark', landmark, side, film };
    }
    case 'remove-mark':
      return onlyOne(putBackMarks(file, (m) => sameMark(m, edit)));
    case 'put-repeat': {
      const before = file.repeats?.find((r) => sameRepeat(r, edit.repeat));
      const { landmark, side, film, round } = edit.repeat;
      return before ? { kind: 'put-repeat', repeat: before } : { kind: 'remove-repeat', landmark, side, film, round };
    }
    case 'remove-repeat':
      return onlyOne(putBackRepeats(file, (r) => sameRepeat(r, edit)));
    case 'put-skip': {
      const before = file.skipped?.find((s) => sameMark(s, edit.skip));
      const { landmark, side, film } = edit.skip;
      return before ? { kind: 'put-skip', skip: before } : { kind: 'remove-skip', landmark, side, film };
    }
    case 'remove-skip':
      return onlyOne(putBackSkips(file, (s) => sameMark(s, edit)));
    case 'put-film': {
      const before = file.films.find((f) => f.id === edit.film.id);
      return before ? { kind: 'put-film', film: before } : { kind: 'remove-film', film: edit.film.id };
    }
    case 'remove-film':
      return putBackFilm(file, edit.film);
    case 'set':
      return invertSet(file, edit.field);
    case 'group':
      return invertGroup(file, edit);
  }
}

const nothing = (label: string): Edit => ({ kind: 'group', label, edits: [] });

const onlyOne = (edits: readonly Edit[]): Edit => edits[0] ?? nothing('Nothing to take back');

/** Puts the marks back at their old places; in ascending order each place is right when it is reached. */
const putBackMarks = (file: CaseFile, which: (mark: Mark) => boolean): Edit[] =>
  file.marks.flatMap((mark, at): Edit[] => (which(mark) ? [{ kind: 'put-mark', mark, at }] : []));

const putBackRepeats = (file: CaseFile, which: (repeat: RepeatedMark) => boolean): Edit[] =>
  (file.repeats ?? []).flatMap((repeat, at): Edit[] => (which(repeat) ? [{ kind: 'put-repeat', repeat, at }] : []));

const putBackSkips = (file: CaseFile, which: (skip: SkippedMark) => boolean): Edit[] =>
  (file.skipped ?? []).flatMap((skip, at): Edit[] => (which(skip) ? [{ kind: 'put-skip', skip, at }] : []));

function putBackFilm(file: CaseFile, id: string): Edit {
  const at = file.films.findIndex((f) => f.id === id);
  const film = file.films[at];
  if (!film) return nothing('Nothing to take back');
  const onIt = (m: Pick<Mark, 'film'>): boolean => m.film === id;
  const back = [...putBackMarks(file, onIt), ...putBackRepeats(file, onIt), ...putBackSkips(file, onIt)];
  return { kind: 'group', label: `Film ${film.file} put back`, edits: [{ kind: 'put-film', film, at }, ...back] };
}

/** Sets the old value again; where a section did not exist before, the whole section goes. */
function invertSet(file: CaseFile, pointer: string): Edit {
  let value: unknown = file;
  let reached = '';
  for (const step of pointerSteps(pointer) ?? []) {
    reached += `/${step}`;
    value = (value as Readonly<Record<string, unknown>>)[step];
    if (value === undefined) return { kind: 'set', field: reached, value: null };
  }
  return { kind: 'set', field: pointer, value };
}

function invertGroup(file: CaseFile, group: Extract<Edit, { kind: 'group' }>): Edit {
  const inverses: Edit[] = [];
  let current = file;
  for (const edit of group.edits) {
    const next = applyEdit(current, edit);
    if (!next.ok) break;
    inverses.unshift(invertEdit(current, edit));
    current = next.value;
  }
  return { kind: 'group', label: group.label, edits: inverses };
}
