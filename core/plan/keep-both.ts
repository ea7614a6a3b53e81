import type { Mark } from '../landmarks/mark.ts';
import { type RepeatedMark, sameLandmark } from '../landmarks/repeated-mark.ts';
import type { CaseFile } from './case.ts';
import type { Edit } from './edit.ts';

/** First round that is free for a landmark on its film. */
export function nextRound(file: CaseFile, of: Pick<Mark, 'landmark' | 'side' | 'film'>): number {
  const rounds = (file.repeats ?? []).filter((r) => sameLandmark(r, of)).map((r) => r.round);
  return Math.max(1, ...rounds) + 1;
}

/**
 * The edit that keeps a mark beside the one that somebody else saved first (LM-10). Nobody's place is lost: the mark saved first
 * stays the one that is measured from, the other is kept as a further placing. Where both placed the landmark anew and both
 * names are known and differ, it is a repeat by another person and counts for the spread; otherwise it is a conflict,
 * shown with both places until somebody chooses. Where the landmark is no longer marked, the mark itself is put.
 * `anew`: the person who comes second saw no mark there.
 */
export function keepBoth(file: CaseFile, mark: Mark, anew: boolean): Edit {
  const first = file.marks.find((m) => sameLandmark(m, mark));
  if (!first) return { kind: 'put-mark', mark };
  const why = anew && areTwoPeople(first.by, mark.by) ? 'repeat' : 'conflict';
  return { kind: 'put-repeat', repeat: { ...mark, round: nextRound(file, mark), why } };
}

const areTwoPeople = (a: string | undefined, b: string | undefined): boolean => {
  const [one, other] = [a?.trim().toLowerCase(), b?.trim().toLowerCase()];
  return Boolean(one) && Boolean(other) && one !== other;
};

/** Takes a further placing as the mark in place of the first; the place that gives way stays in the history. */
export function takeInstead(repeat: RepeatedMark): Edit {
  const { round, why: _, ...mark } = repeat;
  const { landmark, side, film } = mark;
  const label = 'Other place taken';
  return {
    kind: 'group',
    label,
    edits: [
      { kind: 'put-mark', mark },
      { kind: 'remove-repeat', landmark, side, film, round },
    ],
  };
}

/** Second places that wait for somebody to choose, in the order of the case. */
export const openConflicts = (file: CaseFile): readonly RepeatedMark[] =>
  (file.repeats ?? []).filter((r) => r.why === 'conflict');
