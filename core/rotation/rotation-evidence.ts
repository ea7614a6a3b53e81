import type { FilmScaleFacts } from '../calibration/film-scale-facts.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { Side } from '../landmarks/side.ts';
import type { SliceStack } from '../landmarks/slice-stack.ts';
import type { View } from '../landmarks/view.ts';

/** What must be known of a stack to measure rotation on it. A film of a case file fits as it is. */
export interface RotationFilm {
  readonly id: string;
  readonly view: View;
  readonly side: Side | 'both';
  readonly role: 'present' | 'before-first-replacement' | 'after-first-replacement';
  readonly scaleFacts: FilmScaleFacts;
  readonly slices?: SliceStack;
}

export interface RotationEvidence {
  /** Knee that is measured. */
  readonly side: Side;
  /** Chooses the native mean that Berger's excess is counted from; absent = not known, and said so. */
  readonly sex?: 'female' | 'male';
  readonly films: readonly RotationFilm[];
  readonly marks: readonly Mark[];
}
