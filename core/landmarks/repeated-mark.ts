import type { Mark } from './mark.ts';

/**
 * The same landmark placed once more on the same film. The case's `marks` hold the placing that is measured from; these
 * stand beside it and tell how far one placing may be trusted.
 */
export interface RepeatedMark extends Mark {
  /** Which time it was placed: 2 = the second time. The mark itself is the first. */
  readonly round: number;
  /**
   * `repeat`: placed without sight of the others, so that it counts for the spread of marking.
   * `conflict`: two people moved one mark at the same time; both places are kept until somebody chooses, and it counts
   * for no spread.
   */
  readonly why: 'repeat' | 'conflict';
}

/** Why a landmark is passed over; a closed list, so that it can be counted. */
export const SKIP_REASONS = ['not-visible', 'destroyed', 'covered', 'outside-film', 'not-needed'] as const;
export type SkipReason = (typeof SKIP_REASONS)[number];

/** The reasons in the trade's words. */
export const SKIP_WORDS: Readonly<Record<SkipReason, string>> = {
  'not-visible': 'cannot be seen',
  destroyed: 'bone destroyed',
  covered: 'covered by metal or cement',
  'outside-film': 'outside the film',
  'not-needed': 'not needed',
};

/** A landmark passed over on one film, with the reason. A mark placed later goes before it. */
export interface SkippedMark extends Pick<Mark, 'landmark' | 'side' | 'film' | 'by'> {
  readonly reason: SkipReason;
}

/** Two placings of one landmark, side and film. */
export const sameLandmark = (a: Pick<Mark, 'landmark' | 'side' | 'film'>, b: typeof a): boolean =>
  a.landmark === b.landmark && a.side === b.side && a.film === b.film;

export const sameRepeat = (a: Pick<RepeatedMark, 'landmark' | 'side' | 'film' | 'round'>, b: typeof a): boolean =>
  sameLandmark(a, b) && a.round === b.round;
