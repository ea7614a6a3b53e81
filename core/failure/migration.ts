import { Z95 } from '../measure/quantity.ts';

/** A change between two films with the spread of that change. */
export interface Change {
  readonly value: number;
  readonly sd: number;
}

export type MigrationReading = 'moved' | 'not-shown' | 'within-error';

/** Limits of movement against the first film: 2 mm and 2 degrees (from memory). */
export const SUBSIDENCE_LIMIT_MM = 2;
export const TILT_LIMIT_DEG = 2;

/**
 * CAUSE-4: a component has moved when the change between two films reaches the limit **and** is larger than its own
 * 95 % uncertainty. `within-error`: the change reaches the limit but the films cannot tell it from no movement, or it
 * does not and they could not exclude it. `not-shown`: under the limit even at the far end of its interval.
 * Sign is ignored. Limits: subsidence 2 mm, tilt 2 degrees against the first film (from memory).
 */
export function readMigration(change: Change, limit: number): MigrationReading {
  const size = Math.abs(change.value);
  const margin = Z95 * change.sd;
  if (size >= limit && size > margin) return 'moved';
  return size + margin < limit ? 'not-shown' : 'within-error';
}

/** The least change that two films could have told from none, in the change's unit: 1.96 standard deviations of it (CMP-7). */
export const leastTold = (sd: number): number => Z95 * sd;
