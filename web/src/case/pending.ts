import { applyEdit, sameMark } from '@gapline/core/plan/apply-edit.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';

/** One change made on the page that the server has not confirmed yet. Plain data: kept across a crash. */
export interface Pending {
  readonly id: string;
  readonly label: string;
  readonly edits: readonly Edit[];
  /** What each touched part of the case was before, as JSON; null = absent. Tells a true conflict from none. */
  readonly before: Readonly<Record<string, string | null>>;
}

/** Names of the parts of a case that an edit touches. */
function touched(edit: Edit): readonly string[] {
  switch (edit.kind) {
    case 'put-mark':
      return [`mark ${edit.mark.landmark} ${edit.mark.side} ${edit.mark.film}`];
    case 'remove-mark':
      return [`mark ${edit.landmark} ${edit.side} ${edit.film}`];
    case 'put-film':
      return [`film ${edit.film.id}`];
    case 'remove-film':
      return [`film ${edit.film}`];
    case 'set':
      return [`set ${edit.field}`];
    case 'group':
      return edit.edits.flatMap(touched);
  }
}

function partOf(file: CaseFile, name: string): string | null {
  const [kind, a = '', b = '', c = ''] = name.split(' ');
  if (kind === 'mark') {
    const mark = file.marks.find((m) => m.landmark === a && m.side === b && m.film === c);
    return mark ? JSON.stringify(mark) : null;
  }
  if (kind === 'film') {
    const film = file.films.find((f) => f.id === a);
    return film ? JSON.stringify(film) : null;
  }
  let value: unknown = file;
  for (const step of a.slice(1).split('/')) {
    value = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined;
  }
  return value === undefined ? null : JSON.stringify(value);
}

/** Remembers beside a change what it is about to touch. */
export function pendingOf(id: string, file: CaseFile, change: { edits: readonly Edit[]; label: string }): Pending {
  const names = change.edits.flatMap(touched);
  return {
    id,
    label: change.label,
    edits: change.edits,
    before: Object.fromEntries(names.map((name) => [name, partOf(file, name)])),
  };
}

/** The case after several edits, or null where one is refused. */
export function applyAll(file: CaseFile, edits: readonly Edit[]): CaseFile | null {
  let current = file;
  for (const edit of edits) {
    const next = applyEdit(current, edit);
    if (!next.ok) return null;
    current = next.value;
  }
  return current;
}

/** The case as shown: what the server confirmed, with every pending change on it. */
export const withPending = (file: CaseFile, pending: readonly Pending[]): CaseFile =>
  pending.reduce((current, change) => applyAll(current, change.edits) ?? current, file);

export interface Rebased {
  readonly kept: readonly Pending[];
  /** Changes whose part of the case is another one now; they are not applied. */
  readonly dropped: readonly Pending[];
}

/**
 * Sorts unconfirmed changes against a case that is newer than the one they were made on. A change that
 * the case already holds (its answer was lost on the way) is done; one whose parts are as they were is kept;
 * one whose parts were changed by someone else is dropped, to be told and not to be forced.
 */
export function rebase(file: CaseFile, pending: readonly Pending[]): Rebased {
  let current = file;
  const kept: Pending[] = [];
  const dropped: Pending[] = [];
  for (const change of pending) {
    const after = applyAll(current, change.edits);
    if (after && sameParts(current, after, change)) continue;
    const untouched = Object.entries(change.before).every(([name, was]) => partOf(current, name) === was);
    if (after && untouched) {
      kept.push(change);
      current = after;
    } else dropped.push(change);
  }
  return { kept, dropped };
}

const sameParts = (a: CaseFile, b: CaseFile, change: Pending): boolean =>
  Object.keys(change.before).every((name) => partOf(a, name) === partOf(b, name));

/** Whether two edits move one and the same mark, so that a row of nudges is one change. */
export const sameTarget = (a: Edit, b: Edit): boolean =>
  a.kind === 'put-mark' && b.kind === 'put-mark' && sameMark(a.mark, b.mark);
