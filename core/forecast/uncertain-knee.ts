import type { BoneState } from '../gaps/bone-state.ts';

/** Lengths and angles of a bone state that carry a spread, by dotted name, e.g. `femurDistalMm.medial`. */
export type SpreadField =
  | `${'femurDistalMm' | 'femurPosteriorMm' | 'tibiaMm' | 'extensionLaxityMm' | 'flexionLaxityMm'}.${'medial' | 'lateral'}`
  | 'anteriorToPosteriorMm'
  | 'femurWidthMm'
  | 'tibiaWidthMm'
  | 'flexionContactBehindMm'
  | 'referenceSlopeDeg'
  | 'femurCanalMm'
  | 'tibiaCanalMm';

/** Further loss at removal of one surface: least, most likely, most, mm (triangular). */
export interface RemovalLoss {
  readonly leastMm: number;
  readonly likelyMm: number;
  readonly mostMm: number;
  /** Whose numbers these are, shown wherever they are used. */
  readonly from: string;
}

/** A chance between 0 and 1, and where it comes from; null = not stated, and counted as not happening, which is said. */
export interface Chance {
  readonly chance: number | null;
  readonly from: string;
}

/** Everything that the draws are made from. */
export interface UncertainKnee {
  /** Bone expected, without removal loss. */
  readonly expected: BoneState;
  /** Standard deviations, mm or deg, errors of marking and measuring; a field that is absent has none stated. */
  readonly spreads: Readonly<Partial<Record<SpreadField, number>>>;
  /** Standard deviation of the target joint line, mm: moves D and T together, against each other. */
  readonly jointLineSdMm: number | null;
  readonly removal: {
    readonly femurDistal: RemovalLoss | null;
    readonly femurPosterior: RemovalLoss | null;
    readonly tibia: RemovalLoss | null;
  };
  readonly chances: {
    readonly femurWorse: Chance;
    readonly tibiaWorse: Chance;
    readonly mclWorse: Chance;
    readonly lclWorse: Chance;
    readonly fracture: Chance;
    readonly infection: Chance;
  };
}
