import type { BoneClass, LigamentState } from '../bone/bone-class.ts';
import type { ConstraintLevel } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';

/** Parts used at surgery, by catalogue ref, as far as noted; null = none was used. */
export interface PartsUsed {
  readonly level?: ConstraintLevel;
  readonly femur?: string;
  readonly distalAugments?: PerCompartment<string | null>;
  readonly posteriorAugments?: PerCompartment<string | null>;
  readonly tray?: string;
  readonly tibialAugments?: PerCompartment<string | null>;
  readonly insert?: string;
  readonly femoralStem?: string | null;
  readonly femoralOffset?: string | null;
  readonly tibialStem?: string | null;
  readonly tibialOffset?: string | null;
  readonly femoralCone?: string | null;
  readonly tibialCone?: string | null;
  readonly femoralSleeve?: string | null;
  readonly tibialSleeve?: string | null;
}

/** What was found and used at surgery, as entered afterwards in one minute. Absent = not noted. */
export interface Found {
  /** Day of the operation, YYYY-MM-DD. */
  readonly on: string;
  readonly by?: string;
  readonly femurClass?: BoneClass;
  readonly tibiaClass?: BoneClass;
  /** Support found, by the symbols of the bone state, mm. */
  readonly femurDistalMm?: PerCompartment<number>;
  readonly femurPosteriorMm?: PerCompartment<number>;
  readonly tibiaMm?: PerCompartment<number>;
  readonly mcl?: LigamentState;
  readonly lcl?: LigamentState;
  readonly fracture?: boolean;
  readonly infection?: boolean;
  /** Parts used, as far as noted. */
  readonly used?: PartsUsed;
  /** Nothing was missing in the room. */
  readonly kitSufficed?: boolean;
  readonly missed?: string;
  readonly note?: string;
}

/** One forecast number, kept before surgery so that it can be held against what is found. */
export interface KeptShare {
  /** What was forecast, e.g. `block-medial=EX-B2-5` (a choice and its part) or `tibiaClass=2B`. */
  readonly event: string;
  readonly share: number;
}

/** One forecast length, by its quantiles. */
export interface KeptLength {
  readonly field: string;
  /** 5th, 25th, 50th, 75th and 95th percentile, mm. */
  readonly percentiles: readonly number[];
}

/** The forecast as it stood when the plan was settled. */
export interface KeptForecast {
  readonly on: string;
  readonly seed: number;
  readonly draws: number;
  readonly coreVersion: string;
  readonly shares: readonly KeptShare[];
  readonly lengths: readonly KeptLength[];
}
