import type { Reason, Warning } from '../measure/outcome.ts';

/** Groups within which landmarks err together (spec section 2). */
export type LandmarkGroup = 'femur' | 'tibia' | 'other-knee' | 'earlier-film';

/**
 * One landmark's opinion of where the joint line belongs. Heights are mm along the mechanical axis in
 * one film frame whose zero is the **present** joint line (the component's distal tangent, or the
 * tray's bearing line for the tibia); proximal is positive. A raised joint line therefore gives negative heights.
 */
export interface JointLineOpinion {
  /** Landmark or source, e.g. `adductor-tubercle`, `fibular-tip`, `other-knee`, `earlier-film`. */
  readonly id: string;
  readonly label: string;
  readonly group: LandmarkGroup;
  /** x_i, mm. */
  readonly heightMm: number;
  /** a_i: spread between people, mm. */
  readonly personSdMm: number;
  /** c_i: spread of marking, mm. */
  readonly markingSdMm: number;
  /** d_i: measured distance from landmark to present line, mm; carries the scale error. */
  readonly distanceMm: number;
  /** k_i: ratio to the measured width; 0 where no width is used. */
  readonly widthRatio: number;
  /**
   * Length that the film's scale error multiplies where that is not the measured distance: the difference of two distances
   * that were measured on one film with one scale. Absent = `distanceMm`.
   */
  readonly scaledLengthMm?: number;
  /** Scale group: opinions of one film share its scale error. */
  readonly film: string;
  /** s: relative spread of that film's scale. */
  readonly scaleRelativeSd: number;
  /** w: spread of the measured width, mm; 0 where no width is used. */
  readonly widthSdMm: number;
  readonly rule: string;
  readonly source: string;
}

/** The consensus of all opinions, or the single one's own value; spec section 2. */
export interface JointLineEstimate {
  /** Height of the target joint line over the present one, mm, proximal positive. */
  readonly heightMm: number;
  readonly sdMm: number;
  /** Present joint line against the target: + = it stands raised (proximal). Equal to -heightMm. */
  readonly shiftMm: number;
  readonly agreement: {
    readonly q: number;
    readonly degrees: number;
    readonly p: number;
    readonly disagree: boolean;
  } | null;
  readonly opinions: readonly (JointLineOpinion & {
    readonly weight: number;
    /** Estimate without this landmark, mm; null when it stands alone. */
    readonly leaveOneOutMm: number | null;
    readonly residualMm: number;
  })[];
  readonly correlations: JointLineCorrelations;
  /** Which surface the heights refer to, in words. */
  readonly level?: string;
  /** How the measuring direction was found, in words. */
  readonly axis?: string;
  readonly warnings: readonly Warning[];
}

/** Settings of the covariance; assumptions, shown beside every estimate. */
export interface JointLineCorrelations {
  readonly withinFemur: number;
  readonly withinTibia: number;
  readonly across: number;
}

/** Rule of thumb shown beside the consensus, never weighted. */
export interface RuleOfThumb {
  readonly id: string;
  readonly label: string;
  /** Height of the joint line that this rule asks for, mm over the present one, proximal positive; null with a reason. */
  readonly heightMm: number | null;
  readonly cannot?: Reason;
  readonly source: 'common practice, no source';
}
