import type { Mark } from '../landmarks/mark.ts';
import type { RepeatedMark, SkippedMark } from '../landmarks/repeated-mark.ts';
import type { Edit } from './edit.ts';

/** What one step did to one landmark on one film: how it stood before and after; null = it was not there. */
export type MarkChange =
  | { readonly is: 'mark'; readonly before: Mark | null; readonly after: Mark | null }
  | { readonly is: 'repeat'; readonly before: RepeatedMark | null; readonly after: RepeatedMark | null }
  | { readonly is: 'skip'; readonly before: SkippedMark | null; readonly after: SkippedMark | null };

interface Seen {
  readonly key: string;
  readonly is: MarkChange['is'];
  readonly as: Mark | RepeatedMark | SkippedMark | null;
}

/**
 * The marks that a step of the history changed, each with its place before and after (LM-11). `inverse` is the edit that
 * takes `edit` back, as the history keeps it. In the order in which the step names them; what ends as it began is left out.
 */
export function markChanges(edit: Edit, inverse: Edit): readonly MarkChange[] {
  // Of several changes of one mark the last counts; taking back runs the other way round, so its last is the first state.
  const after = lastOf(seenIn(edit));
  const before = lastOf(seenIn(inverse));
  const keys = [...new Set([...after.keys(), ...before.keys()])];
  return keys.flatMap((key) => {
    const [was, is] = [before.get(key), after.get(key)];
    const from = was?.as ?? null;
    const to = is?.as ?? null;
    if (JSON.stringify(from) === JSON.stringify(to)) return [];
    return [{ is: (was ?? is)?.is, before: from, after: to } as MarkChange];
  });
}

const lastOf = (seen: readonly Seen[]): ReadonlyMap<string, Seen> => new Map(seen.map((s) => [s.key, s]));

type Named = Pick<Mark, 'landmark' | 'side' | 'film'>;
const nameOf = ({ landmark, side, film }: Named): string => `${landmark}|${side}|${film}`;

function seenIn(edit: Edit): readonly Seen[] {
  switch (edit.kind) {
    case 'put-mark':
      return [{ is: 'mark', key: `mark|${nameOf(edit.mark)}`, as: edit.mark }];
    case 'remove-mark':
      return [{ is: 'mark', key: `mark|${nameOf(edit)}`, as: null }];
    case 'put-repeat':
      return [{ is: 'repeat', key: `repeat|${nameOf(edit.repeat)}|${edit.repeat.round}`, as: edit.repeat }];
    case 'remove-repeat':
      return [{ is: 'repeat', key: `repeat|${nameOf(edit)}|${edit.round}`, as: null }];
    case 'put-skip':
      return [{ is: 'skip', key: `skip|${nameOf(edit.skip)}`, as: edit.skip }];
    case 'remove-skip':
      return [{ is: 'skip', key: `skip|${nameOf(edit)}`, as: null }];
    case 'group':
      return edit.edits.flatMap(seenIn);
    case 'put-film':
    case 'remove-film':
    case 'set':
      return [];
  }
}
