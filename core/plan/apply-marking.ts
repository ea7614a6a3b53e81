import {
  type RepeatedMark,
  SKIP_REASONS,
  type SkippedMark,
  sameLandmark,
  sameRepeat,
} from '../landmarks/repeated-mark.ts';
import { type Cannot, type Outcome, ok } from '../measure/outcome.ts';
import type { CaseFile } from './case.ts';
import { markFault } from './mark-fault.ts';
import { put } from './put-in-list.ts';
import { refuse } from './refuse.ts';

/** More placings of one landmark than any study asks for; a bound against nonsense. */
const MOST_ROUNDS = 1000;

/** The case without that list where it is empty: an absent list and an empty one are the same, written in one way. */
const withRepeats = ({ repeats: _, ...rest }: CaseFile, repeats: readonly RepeatedMark[]): CaseFile =>
  repeats.length > 0 ? { ...rest, repeats } : rest;
const withSkipped = ({ skipped: _, ...rest }: CaseFile, skipped: readonly SkippedMark[]): CaseFile =>
  skipped.length > 0 ? { ...rest, skipped } : rest;

/** One more placing of a landmark, kept beside the mark; one of the same round is replaced. */
export function putRepeat(file: CaseFile, repeat: RepeatedMark, at?: number): Outcome<CaseFile> {
  const fault = markFault(file, repeat) ?? roundFault(repeat);
  if (fault) return fault;
  const list = file.repeats ?? [];
  const index = list.findIndex((r) => sameRepeat(r, repeat));
  return ok(withRepeats(file, put(list, repeat, { index, at })));
}

function roundFault({ landmark, round, why }: RepeatedMark): Cannot | null {
  const at = `repeat ${landmark}`;
  if (!(Number.isInteger(round) && round >= 2 && round <= MOST_ROUNDS))
    return refuse('bad-round', `A repeat is of round 2 to ${MOST_ROUNDS}.`, at, 'Number the rounds from 2.');
  if (why !== 'repeat' && why !== 'conflict')
    return refuse('unknown-repeat', 'It is not said why there is a second place.', at, 'Say repeat or conflict.');
  return null;
}

export function removeRepeat(
  file: CaseFile,
  of: Pick<RepeatedMark, 'landmark' | 'side' | 'film' | 'round'>,
): Outcome<CaseFile> {
  const list = file.repeats ?? [];
  const left = list.filter((r) => !sameRepeat(r, of));
  if (left.length < list.length) return ok(withRepeats(file, left));
  const which = `${of.landmark} (${of.side}), round ${of.round}`;
  return refuse('no-such-repeat', `There is no repeat ${which} on that film.`, `repeat ${of.landmark}`, RELOAD);
}

const RELOAD = 'Reload the case.';

/** A landmark passed over with its reason. */
export function putSkip(file: CaseFile, skip: SkippedMark, at?: number): Outcome<CaseFile> {
  const where = `skip ${skip.landmark}`;
  const fault = markFault(file, { ...skip, points: [{ x: 0, y: 0 }], how: 'by-hand' });
  if (fault) return fault;
  if (!SKIP_REASONS.includes(skip.reason))
    return refuse(
      'unknown-skip-reason',
      'It is not said why it is passed over.',
      where,
      `Say ${SKIP_REASONS.join(', ')}.`,
    );
  const list = file.skipped ?? [];
  const index = list.findIndex((s) => sameLandmark(s, skip));
  return ok(withSkipped(file, put(list, skip, { index, at })));
}

export function removeSkip(file: CaseFile, of: Pick<SkippedMark, 'landmark' | 'side' | 'film'>): Outcome<CaseFile> {
  const list = file.skipped ?? [];
  const left = list.filter((s) => !sameLandmark(s, of));
  if (left.length < list.length) return ok(withSkipped(file, left));
  return refuse('no-such-skip', `${of.landmark} is not passed over on that film.`, `skip ${of.landmark}`, RELOAD);
}

/** The case without anything that was placed or passed over on a film. */
export function withoutMarking(file: CaseFile, film: string): CaseFile {
  const marks = file.marks.filter((m) => m.film !== film);
  const repeats = (file.repeats ?? []).filter((r) => r.film !== film);
  const skipped = (file.skipped ?? []).filter((s) => s.film !== film);
  return withSkipped(withRepeats({ ...file, marks }, repeats), skipped);
}
