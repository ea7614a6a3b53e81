import type {
  Catalogue,
  ConstraintLevel,
  FemoralAugment,
  Femur,
  Insert,
  OffsetCoupler,
  Segment,
  TibialAugment,
  Tray,
} from '../../catalogue/catalogue.ts';
import type { Side } from '../../landmarks/side.ts';

/** A tray with what may stand under it, or a proximal tibial component of one length. */
export interface PreparedTray {
  readonly tray: Tray;
  readonly index: number;
  readonly segment: Segment | null;
  readonly side: Side | 'both';
  /** Blocks, none first, then by thickness. */
  readonly blocks: readonly (TibialAugment | null)[];
  /** Trays of one number share their table: of blocks, and of what holds them in the metaphysis. */
  readonly blockTable: number;
  readonly holdTable: number;
}

/** An insert on a tray. */
export interface Seat {
  readonly insert: Insert;
  /** Height of tray and insert together, mm, and its place in the list of all heights of the catalogue. */
  readonly shiftMm: number;
  readonly height: number;
}

/** A tray and the inserts that join it to one femur at one level; equal heights are listed once. */
export interface Bearing {
  readonly tray: PreparedTray;
  readonly seats: readonly Seat[];
  /** Bearings of one number have seats of the same heights and labels. */
  readonly seatTable: number;
}

/** Every tray that joins a femur at one level, worked out when asked for; femurs of one number share them. */
export interface Bearings {
  readonly table: number;
  readonly all: readonly Bearing[];
  /** Without proximal tibial components. */
  readonly usual: readonly Bearing[];
}

/** A femur with what may stand on it, or a distal femoral component of one length. */
export interface PreparedFemur {
  readonly femur: Femur;
  readonly index: number;
  readonly segment: Segment | null;
  readonly distal: readonly (FemoralAugment | null)[];
  readonly posterior: readonly (FemoralAugment | null)[];
  /** Femurs of one number share their table. */
  readonly distalTable: number;
  readonly condyleTable: number;
  readonly holdTable: number;
  /** No coupler first, then those that go behind this size, by offset. */
  readonly couplers: readonly (OffsetCoupler | null)[];
  readonly bearings: Readonly<Record<ConstraintLevel, Bearings>>;
}

/** A catalogue sorted for the solver. */
export interface Prepared {
  readonly catalogue: Catalogue;
  readonly femurs: Readonly<Record<Side, readonly PreparedFemur[]>>;
  /** Without distal femoral components. */
  readonly usualFemurs: Readonly<Record<Side, readonly PreparedFemur[]>>;
  /** Couplers that a tray of a size takes, by offset. */
  readonly trayCouplers: ReadonlyMap<number, readonly OffsetCoupler[]>;
  /** Number of combinations of parts that the compatibility tables allow, slopes included. */
  readonly combinations: (side: Side) => number;
}
