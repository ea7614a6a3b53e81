import type { Catalogue } from '../catalogue/catalogue.ts';
import type { DrawnKnee } from '../forecast/drawn-knee.ts';
import type { Reason } from '../measure/outcome.ts';
import type { KitSet, SetService } from './set-list.ts';
import type { SetMask } from './set-mask.ts';

/** A set that can be asked for, with all that the choice needs to know of it. */
export interface KitOffer {
  readonly set: KitSet;
  /** Trays at the price of a tray, and the fee (KIT-6), in the list's currency. */
  readonly cost: number;
  /** Last day to order a loan, YYYY-MM-DD; null = own set, or no day of surgery. */
  readonly orderBy: string | null;
  /** That day has passed: the choice leaves the set out. */
  readonly late: boolean;
}

/** Why no set of the list covers a knee, and what would. */
export interface KitGap {
  /** In plain words, such as "no block of the catalogue is thick enough". */
  readonly words: string;
  /** Smallest addition that would cover it, in plain words; null = none was found. */
  readonly addition: string | null;
  /** Service that no set gives, where that is why. */
  readonly service?: SetService;
}

/** Drawn knees that the same combinations of sets cover. */
export interface KitGroup {
  /** Number of drawn knees. */
  readonly weight: number;
  /** Least combinations of sets that cover them, each on its own; bringing more never hurts. None = nothing covers. */
  readonly options: readonly SetMask[];
  /** For each option, the parts that a knee of the group is built from with it. */
  readonly parts: readonly (readonly string[])[];
  /** What they need besides, or instead of, a construct. */
  readonly services: readonly SetService[];
  /** Places of the knees in `KitProblem.knees`, ascending. */
  readonly knees: readonly number[];
  /** Present where there is no option. */
  readonly gap?: KitGap;
}

/** Everything that the choice of sets is made from. */
export interface KitProblem {
  /** Sets in the order of the list: bit i of a mask is the i-th. */
  readonly sets: readonly KitOffer[];
  readonly groups: readonly KitGroup[];
  readonly knees: readonly DrawnKnee[];
  readonly catalogue: Catalogue;
  readonly currency: string;
  /** Cost of a construct up to which a knee counts as covered (KIT-1). */
  readonly acceptableCost: number;
  /** What is to be kept in mind: stock that is expired, services that no set gives, sets that come too late. */
  readonly notes: readonly Reason[];
}
