import { createHash } from 'node:crypto';
import { gatherStacks, type Stacked } from '@gapline/film/stack/gather-stacks.ts';
import type { SliceFile } from '@gapline/film/stack/slice-file.ts';
import type { ImportedFile } from './contract.ts';
import { errorBody, refusalFor } from './errors.ts';

/** The answer for one file of an import, and what decides about its stack where it is a slice. */
export interface Answered {
  readonly answer: ImportedFile;
  readonly slice: SliceFile | null;
}

/** Length of the hash that names a stack within its case. */
const SHORT = 12;
const idOf = (hashes: readonly string[]): string =>
  createHash('sha256').update(hashes.join('\n')).digest('hex').slice(0, SHORT);

/**
 * The answers of an import with its slices gathered into stacks: one answer a stack, in place of those of its slices; a slice
 * that belongs to none is refused by name. Everything else stays as it is, in its order.
 */
export function withStacks(answered: readonly Answered[]): readonly ImportedFile[] {
  const { stacks, left, twice } = gatherStacks(
    answered.flatMap(({ slice }) => slice ?? []),
    idOf,
  );
  const reasons = new Map(left.map(({ slice, reason }) => [slice.film.sha256, reason]));
  const gone = new Set(twice.map(({ film }) => film));
  const stackOf = new Map<string, Stacked>();
  for (const stack of stacks) for (const { film } of stack.members) stackOf.set(film.sha256, stack);
  const told = new Set<Stacked>();
  return answered.flatMap(({ answer, slice }): ImportedFile[] => {
    if (!slice || !answer.accepted) return [answer];
    const reason = reasons.get(slice.film.sha256);
    if (reason)
      return [{ file: answer.file, accepted: false, error: errorBody(refusalFor(reason, 'film-refused')).error }];
    const stack = stackOf.get(slice.film.sha256);
    if (gone.has(slice.film) || (stack && told.has(stack))) return [];
    if (!stack) return [answer];
    told.add(stack);
    return [stackAnswer(stack, answered)];
  });
}

/** The stack as one imported film: told by its slice in the middle, with the cautions of all its slices once. */
function stackAnswer({ film, members, warnings }: Stacked, answered: readonly Answered[]): ImportedFile {
  const hashes = new Set(members.map((m) => m.film.sha256));
  const parts = answered.flatMap(({ answer }) => (answer.accepted && hashes.has(answer.sha256) ? [answer] : []));
  const middle = parts.find((p) => p.sha256 === film.sha256) ?? parts[0];
  if (!middle) throw new Error('a stack without an imported slice');
  const [first, last] = [members[0]?.film.file, members.at(-1)?.film.file];
  return {
    ...middle,
    file: `${first} to ${last}, ${members.length} slices`,
    film,
    duplicateOf: parts.every((p) => p.duplicateOf !== null) ? middle.duplicateOf : null,
    warnings: [...warnings, ...(middle.warnings ?? [])],
  };
}
