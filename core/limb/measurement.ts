import type { ScaleSource } from '../calibration/calibration.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Side } from '../landmarks/side.ts';
import type { Reason, Warning } from '../measure/outcome.ts';
import type { Unit } from '../measure/quantity.ts';

/** One line of the measurement table: a value with unit, sign and spread, or what is missing for it. */
export interface Measurement {
  /** Stable name, e.g. `mldfa`, `hka`, `posterior-condylar-offset`. */
  readonly id: string;
  readonly label: string;
  readonly side: Side;
  /** Null when it could not be measured; `missing` or `refused` then says why. */
  readonly value: number | null;
  readonly unit: Unit;
  /** Standard deviation in the same unit, from marking spread and scale; null where there is no value. */
  readonly sd: number | null;
  /** By cause (a mark, the scale): what one standard deviation of it adds to the value; only where it was asked for. */
  readonly causes?: Readonly<Record<string, number>>;
  /** Sign and zero in words: "+ = valgus, 0 = straight". */
  readonly sign: string;
  /** Film measured on; null when nothing could be measured. */
  readonly film: string | null;
  /** Where its millimetres come from; `not-needed` for angles and ratios. */
  readonly scale: ScaleSource | 'not-needed';
  /** Which option of several was used, e.g. "F1: middle of the component" or "axis: both cortices (TPAA)". */
  readonly variant?: string;
  readonly inputs: readonly LandmarkId[];
  /** Numbered rule in docs/rules, e.g. `LIMB-3`. */
  readonly rule: string;
  /** Published source of the formula. */
  readonly source: string;
  /** Published normal range in words, with its source; for display only. */
  readonly normal?: string;
  /** Cautions that hold for this value: rotation with flexion, supine film, native values only ... */
  readonly flags: readonly Warning[];
  /** Landmarks that are not marked, when that is why there is no value. */
  readonly missing?: readonly LandmarkId[];
  /** Any other reason why there is no value. */
  readonly refused?: Reason;
}
