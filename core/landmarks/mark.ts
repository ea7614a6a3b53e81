import type { LandmarkId } from './landmark-table.ts';
import type { Side } from './side.ts';

/**
 * One landmark as placed on one film. Plain data: this is what a case file stores.
 * Outline landmarks (femoral head, calibration ball) hold three or more points; all others exactly one.
 */
export interface Mark {
  readonly landmark: LandmarkId;
  readonly side: Side;
  readonly film: string;
  /** Slice of a CT stack that it lies on, from 0 in the stack's order; absent on a film of one picture. */
  readonly slice?: number;
  /** Film pixels, x = column, y = row (down). */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  /** Standard deviation of marking each coordinate, mm in the patient; absent = the landmark's default. */
  readonly sdMm?: number;
  /** How it came to be. */
  readonly how: 'by-hand' | 'proposed-and-accepted' | 'model-truth';
  readonly by?: string;
}
