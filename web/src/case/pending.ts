import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { applyEdit, sameMark } from '@gapline/core/plan/apply-edit.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { keepBoth, nextRound } from '@gapline/core/plan/keep-both.ts';

/** One change made on the page that the server has not confirmed yet. Plain data: kept across a crash. */
export interface Pending {
  readonly id: string;
  readonly label: string;
  readonly edits: readonly Edit[];
  /** Who made it, as that person said; absent = not said. */
  readonly by?: string;
  /** What each touched part of the case was before, as JSON; null = absent. Tells a true conflict from none. */
  readonly before: Readonly<Record<string, string | null>>;
}

type Named = Pick<Mark, 'landmark' | 'side' | 'film'>;
const markName = ({ landmark, side, film }: Named): string => `mark ${landmark} ${side} ${film}`;
const repeatName = ({ landmark, side, film, round }: Named & { readonly round: number }): string =>
  `repeat ${landmark} ${side} ${round} ${film}`;

/** Names of the parts of a case that an edit touches. */
function touched(edit: Edit): readonly string[] {
  switch (edit.kind) {
    case 'put-mark':
      return [markName(edit.mark)];
    case 'remove-mark':
      return [markName(edit)];
    case 'put-repeat':
      return [repeatName(edit.repeat)];
    case 'remove-repeat':
      return [repeatName(edit)];
    case 'put-skip':
      return [`skip ${edit.skip.landmark} ${edit.skip.side} ${edit.skip.film}`];
    case 'remove-skip':
      return [`skip ${edit.landmark} ${edit.side} ${edit.film}`];
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
  if (kind === 'mark') return asText(file.marks.find((m) => markName(m) === name));
  if (kind === 'repeat') return asText(file.repeats?.find((r) => repeatName(r) === name));
  if (kind === 'skip') return asText(file.skipped?.find((s) => s.landmark === a && s.side === b && s.film === c));
  if (kind === 'film') {
    return asText(file.films.find((f) => f.id === a));
  }
  let value: unknown = file;
  for (const step of a.slice(1).split('/')) {
    value = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined;
  }
  return asText(value);
}

const asText = (value: unknown): string | null => (value === undefined ? null : JSON.stringify(value));

/** Remembers beside a change what it is about to touch. */
export function pendingOf(
  id: string,
  file: CaseFile,
  change: { edits: readonly Edit[]; label: string; by?: string | undefined },
): Pending {
  const names = change.edits.flatMap(touched);
  return {
    id,
    label: change.label,
    edits: change.edits,
    ...(change.by === undefined ? {} : { by: change.by }),
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
  /** Of those kept: marks that somebody else placed meanwhile, now kept beside that person's. */
  readonly beside: readonly Pending[];
  /** Changes whose part of the case is another one now; they are not applied. */
  readonly dropped: readonly Pending[];
}

/**
 * Sorts unconfirmed changes against a case that is newer than the one they were made on. A change that
 * the case already holds (its answer was lost on the way) is done; one whose parts are as they were is kept. Of one whose
 * parts were changed by someone else the marks are kept beside those of the other person (LM-10), and the rest is
 * dropped, to be told and not to be forced.
 */
export function rebase(file: CaseFile, pending: readonly Pending[]): Rebased {
  let current = file;
  const kept: Pending[] = [];
  const beside: Pending[] = [];
  const dropped: Pending[] = [];
  const keep = (change: Pending, after: CaseFile): void => {
    kept.push(change);
    current = after;
  };
  for (const change of pending) {
    const after = applyAll(current, change.edits);
    if (after && sameParts(current, after, change)) continue;
    if (after && isUntouched(current, change, Object.keys(change.before))) {
      keep(change, after);
      continue;
    }
    const both = besideOthers(current, change, beside);
    const withBoth = both && applyAll(current, both.edits);
    if (both && withBoth) {
      keep(both, withBoth);
      beside.push(both);
    } else dropped.push(change);
  }
  return { kept, beside, dropped };
}

const isUntouched = (file: CaseFile, { before }: Pending, names: readonly string[]): boolean =>
  names.every((name) => partOf(file, name) === (before[name] ?? null));

/** The change with each mark that was placed elsewhere meanwhile kept beside; null where something else stands in its way. */
function besideOthers(file: CaseFile, change: Pending, already: readonly Pending[]): Pending | null {
  let current = file;
  const edits: Edit[] = [];
  for (const edit of change.edits.flatMap(flat)) {
    const next = isUntouched(current, change, touched(edit)) ? edit : second(current, { change, edit, already });
    const after = next && applyAll(current, [next]);
    if (!next || !after) return null;
    edits.push(next);
    current = after;
  }
  return pendingOf(change.id, file, { ...change, edits });
}

const flat = (edit: Edit): readonly Edit[] => (edit.kind === 'group' ? edit.edits.flatMap(flat) : [edit]);

/**
 * A mark or a repeat that is no longer as this page saw it, kept beside the other; null for anything else. A mark that this page
 * moves on after it was kept beside moves on there.
 */
function second(
  file: CaseFile,
  of: { readonly change: Pending; readonly edit: Edit; readonly already: readonly Pending[] },
): Edit | null {
  const { change, edit, already } = of;
  if (edit.kind === 'put-repeat')
    return { kind: 'put-repeat', repeat: { ...edit.repeat, round: nextRound(file, edit.repeat) } };
  if (edit.kind !== 'put-mark') return null;
  const mine = already
    .flatMap((p) => p.edits)
    .findLast((e) => e.kind === 'put-repeat' && sameMark(e.repeat, edit.mark));
  if (mine?.kind !== 'put-repeat') return keepBoth(file, edit.mark, change.before[markName(edit.mark)] === null);
  const { round, why } = mine.repeat;
  return { kind: 'put-repeat', repeat: { ...edit.mark, round, why } };
}

const sameParts = (a: CaseFile, b: CaseFile, change: Pending): boolean =>
  Object.keys(change.before).every((name) => partOf(a, name) === partOf(b, name));

/** Whether two edits move one and the same mark, so that a row of nudges is one change. */
export const sameTarget = (a: Edit, b: Edit): boolean =>
  a.kind === 'put-mark' && b.kind === 'put-mark' && sameMark(a.mark, b.mark);
