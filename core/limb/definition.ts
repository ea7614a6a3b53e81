import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Reading } from '../landmarks/reading.ts';
import type { View } from '../landmarks/view.ts';
import type { Outcome, Warning } from '../measure/outcome.ts';
import type { Unit } from '../measure/quantity.ts';

/** One value from the landmarks of one film, in the definition's unit. */
export type Formula<F extends LimbFrame> = (r: Reading<F>) => Outcome<number>;

/** One way to measure a quantity; which one was used is stored with the value. */
export interface Variant<F extends LimbFrame> {
  /** In words, e.g. "F1: middle of the component"; absent where there is only one way. */
  readonly name?: string;
  readonly views: readonly View[];
  readonly inputs: readonly LandmarkId[];
  readonly formula: Formula<F>;
  /** The radiolucent insert's thickness enters: refused while it is unknown. */
  readonly needsInsert?: boolean;
  readonly cautions?: readonly Warning[];
}

/** A measurement of the trade: what it is, and in how many ways it can be had, best first. */
export interface Definition<F extends LimbFrame> {
  readonly id: string;
  readonly label: string;
  readonly frame: F;
  readonly unit: Unit;
  readonly sign: string;
  readonly rule: string;
  readonly source: string;
  readonly normal?: string;
  /** True where millimetres enter: refused on a film without scale. */
  readonly needsScale?: boolean;
  /** Published reading spread, in the unit, for films without a scale, where no marking spread in pixels is known. */
  readonly readingSd?: number;
  readonly variants: (state: KneeEvidence['state']) => readonly Variant<F>[];
  /** Keeps what each cause adds to the spread, for quantities that are drawn together afterwards. */
  readonly keepsCauses?: boolean;
  /** Cautions that hang on how the limb stood: load for what opens or bends under weight, rotation for projected angles. */
  readonly posture?: readonly ('load' | 'rotation')[];
  /** The value is the number of a class, counted from 1, with these names; a class has no spread. */
  readonly classes?: readonly string[];
  /** Holds for the native knee only: with implants in place it is read from a film before the first replacement. */
  readonly nativeOnly?: boolean;
}

export const LONG_LEG: readonly View[] = ['long-leg'];
export const ANY_AP: readonly View[] = ['long-leg', 'ap'];
export const LATERAL: readonly View[] = ['lateral'];
export const SKYLINE: readonly View[] = ['skyline'];
