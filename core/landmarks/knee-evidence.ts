import type { Calibration } from '../calibration/calibration.ts';
import type { Mark } from './mark.ts';
import type { Side } from './side.ts';
import type { ColumnDirection, View } from './view.ts';

/** What must be known of a film to measure on it. A film of a case file fits as it is. */
export interface EvidenceFilm {
  readonly id: string;
  readonly view: View;
  readonly side: Side | 'both';
  readonly role: 'present' | 'before-first-replacement' | 'after-first-replacement';
  readonly standing?: boolean;
  readonly columnsTowards?: ColumnDirection;
}

/** What is known of the implants in place and bears on measuring. The polyethylene does not show on a film. */
export interface EvidenceImplants {
  readonly insertMm?: number;
}

/** What is known of how the limb lay or stood. */
export interface EvidencePosture {
  readonly filmFlexionDeg?: number;
  readonly filmRotationDeg?: number;
}

/** Everything that measuring one knee, or estimating its joint line, starts from. */
export interface KneeEvidence {
  /** Knee that is measured. */
  readonly side: Side;
  /** Replaced: component landmarks stand for bone, and native-only quantities are refused. */
  readonly state: 'native' | 'replaced';
  readonly films: readonly EvidenceFilm[];
  readonly marks: readonly Mark[];
  /** Calibration of each film by its id. */
  readonly calibrations: ReadonlyMap<string, Calibration>;
  /** Where a film of both legs carries a scale of its own for the knee that is not operated on. */
  readonly otherKneeCalibrations?: ReadonlyMap<string, Calibration>;
  readonly implants?: EvidenceImplants;
  readonly examination?: EvidencePosture;
}
