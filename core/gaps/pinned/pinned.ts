import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { PerCompartment } from '../../landmarks/side.ts';
import type { SolvedConstruct } from '../construct.ts';

/**
 * What a person fixed by hand (GAP-40): each a demand that every construct has to meet, absent = left to the solver.
 * Lengths in mm in the frames of the construct, angles in degrees; thicknesses 0 = none.
 */
export interface Pinned {
  readonly level?: ConstraintLevel;
  readonly femurSize?: number;
  /** J: distal surface proximal to the target joint line. */
  readonly femurProximalMm?: number;
  /** q: posterior surface anterior to the target posterior line. */
  readonly femurAnteriorMm?: number;
  readonly distalAugmentsMm?: PerCompartment<number>;
  readonly posteriorAugmentsMm?: PerCompartment<number>;
  /** Offset of the coupler between femur and stem; 0 = none. */
  readonly femoralOffsetMm?: number;
  /** Reference of the stem, or `none`. */
  readonly femoralStem?: string;
  readonly traySize?: number;
  /** U: tray's bone face proximal to the target joint line (negative = distal). */
  readonly trayMm?: number;
  readonly tibialAugmentsMm?: PerCompartment<number>;
  readonly tibialStem?: string;
  /** Labelled thickness. */
  readonly insertMm?: number;
  /** Posterior down +. */
  readonly slopeDeg?: number;
}

export type PinId = keyof Pinned;

/** What can be fixed, in the order in which it is told: constraint, femur, tibia, insert. */
export const PINS: readonly { readonly id: PinId; readonly label: string }[] = [
  { id: 'level', label: 'Constraint' },
  { id: 'femurSize', label: 'Femur' },
  { id: 'femurProximalMm', label: 'Femoral joint line' },
  { id: 'femurAnteriorMm', label: 'Posterior femur' },
  { id: 'distalAugmentsMm', label: 'Distal augments' },
  { id: 'posteriorAugmentsMm', label: 'Posterior augments' },
  { id: 'femoralOffsetMm', label: 'Femoral offset' },
  { id: 'femoralStem', label: 'Femoral stem' },
  { id: 'traySize', label: 'Tray' },
  { id: 'trayMm', label: 'Tray level' },
  { id: 'tibialAugmentsMm', label: 'Tibial augments' },
  { id: 'tibialStem', label: 'Tibial stem' },
  { id: 'insertMm', label: 'Insert' },
  { id: 'slopeDeg', label: 'Slope' },
];

/** Lengths that a hand moves without steps. */
export const LENGTH_PINS = ['femurProximalMm', 'femurAnteriorMm', 'trayMm'] as const;
export type LengthPin = (typeof LENGTH_PINS)[number];

export const isLengthPin = (id: PinId): id is LengthPin => (LENGTH_PINS as readonly PinId[]).includes(id);

/** No stem, where a stem is named. */
export const NO_STEM = 'none';

/** What is fixed, in the order of the table. */
export const pinsIn = (pinned: Pinned): readonly PinId[] =>
  PINS.flatMap(({ id }) => (pinned[id] === undefined ? [] : [id]));

/** The same without one of them. */
export function released(pinned: Pinned, id: PinId): Pinned {
  const { [id]: _, ...rest } = pinned;
  return rest;
}

/** One thing that was fixed by hand, and what it costs. */
export interface PinnedLine {
  readonly id: PinId;
  readonly label: string;
  /** What it was fixed at, and what the solver would choose, in words. */
  readonly fixed: string;
  readonly free: string;
  /** What would be saved if this alone were released, >= 0. */
  readonly saves: number;
}

/** A term of the cost that what is fixed by hand changed. */
export interface PinnedTerm {
  readonly id: string;
  readonly label: string;
  readonly cost: number;
  /** What the same term costs in the free optimum. */
  readonly freeCost: number;
}

/** What is fixed by hand, held against the free optimum (GAP-41). */
export interface PinnedCost {
  readonly lines: readonly PinnedLine[];
  /** The construct of least cost without anything fixed. */
  readonly free: SolvedConstruct;
  /** Cost above the free optimum, >= 0. */
  readonly more: number;
  readonly terms: readonly PinnedTerm[];
}
