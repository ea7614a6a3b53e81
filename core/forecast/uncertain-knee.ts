import type { BoneState } from '../gaps/bone-state.ts';

/** Lengths and angles of a bone state that carry a spread, by dotted name, e.g. `femurDistalMm.medial`. */
export const SPREAD_FIELDS = [
  'femurDistalMm.medial',
  'femurDistalMm.lateral',
  'femurPosteriorMm.medial',
  'femurPosteriorMm.lateral',
  'anteriorToPosteriorMm',
  'femurWidthMm',
  'tibiaWidthMm',
  'tibiaMm.medial',
  'tibiaMm.lateral',
  'extensionLaxityMm.medial',
  'extensionLaxityMm.lateral',
  'flexionLaxityMm.medial',
  'flexionLaxityMm.lateral',
  'flexionContactBehindMm',
  'referenceSlopeDeg',
  'femurCanalMm',
  'tibiaCanalMm',
] as const;
export type SpreadField = (typeof SPREAD_FIELDS)[number];

/** One error that moves several values at once, such as the scale of a film (FOR-2). */
export interface SharedError {
  readonly cause: string;
  /** What one standard deviation of it does to each field, mm or deg, with its sign. */
  readonly moves: Readonly<Partial<Record<SpreadField, number>>>;
}

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
  /** Standard deviations, mm or deg, of what errs in each field alone; a field that is absent has none stated. */
  readonly spreads: Readonly<Partial<Record<SpreadField, number>>>;
  /** Standard deviation of the target joint line, mm: moves D and f one way and T the other (FOR-2). */
  readonly jointLineSdMm: number | null;
  /** Further errors that fields have in common; absent = none known. */
  readonly shared?: readonly SharedError[];
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
