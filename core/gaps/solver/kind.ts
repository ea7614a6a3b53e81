import type { ConstraintLevel, Insert, OffsetCoupler } from '../../catalogue/catalogue.ts';
import type { Pair } from './choices.ts';
import type { Found } from './order.ts';
import type { PreparedFemur } from './prepared.ts';

/** Restricts the search to constructs of one kind; what is absent is free. */
export interface Kind {
  readonly femur?: (femur: PreparedFemur) => boolean;
  readonly level?: (level: ConstraintLevel) => boolean;
  readonly insert?: (insert: Insert) => boolean;
  readonly distal?: (pair: Pair) => boolean;
  readonly posterior?: (pair: Pair, coupler: OffsetCoupler | null) => boolean;
  readonly blocks?: (pair: Pair) => boolean;
  readonly underTray?: (coupler: OffsetCoupler | null) => boolean;
}

/** Whether a construct is of this kind. */
export const isOfKind = (f: Found, kind: Kind): boolean =>
  kind.femur?.(f.femur) !== false &&
  kind.level?.(f.level) !== false &&
  kind.insert?.(f.insert) !== false &&
  kind.distal?.(f.distal.pair) !== false &&
  kind.posterior?.(f.posterior.pair, f.posterior.flange.coupler) !== false &&
  kind.blocks?.(f.tibial.pair) !== false &&
  kind.underTray?.(f.hold.coupler) !== false;
