import type { ConstraintLevel } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { Reason } from '../measure/outcome.ts';
import type { PinnedCost } from './pinned/pinned.ts';

/** A full choice of parts and of how they seat, spec section 4. Refs are catalogue refs; null = not used. */
export interface Construct {
  readonly level: ConstraintLevel;
  readonly femur: string;
  readonly distalAugments: PerCompartment<string | null>;
  readonly posteriorAugments: PerCompartment<string | null>;
  readonly tray: string;
  readonly tibialAugments: PerCompartment<string | null>;
  readonly insert: string;
  readonly femoralStem: string | null;
  readonly femoralOffset: string | null;
  readonly tibialStem: string | null;
  /** Offset coupler between tray and tibial stem (GAP-32); absent or null = not used. */
  readonly tibialOffset?: string | null;
  /** Metaphyseal cones; absent or null = not used. */
  readonly femoralCone?: string | null;
  readonly tibialCone?: string | null;
  /** Metaphyseal sleeves, never beside a cone of the same bone; absent or null = not used. */
  readonly femoralSleeve?: string | null;
  readonly tibialSleeve?: string | null;
  /**
   * Length of a distal femoral or proximal tibial component with the pieces between, mm; then `femur` or `tray` is
   * the reference of a segment. Absent or null = a usual component.
   */
  readonly femoralSegmentMm?: number | null;
  readonly tibialSegmentMm?: number | null;
  /** Flexion of the femoral component that its stem forces, deg, + = flexed; absent = 0 or not known. */
  readonly femoralFlexionDeg?: number;
  /** J: distal surface proximal to the target joint line, mm. */
  readonly femurProximalMm: number;
  /** q: posterior surface anterior to the target posterior line, mm. */
  readonly femurAnteriorMm: number;
  /** o: posterior shift, from stem offset and from leaving the flange off the cortex, mm. */
  readonly posteriorShiftMm: number;
  /** U: tray's bone face proximal to the target joint line (negative = distal), mm. */
  readonly trayMm: number;
  readonly slopeDeg: number;
}

/** Middle of the tray against the middle of the tibia, mm: + = lateral, + = anterior; null = front to back not known. */
export interface TrayPlace {
  readonly lateralMm: number;
  readonly anteriorMm: number | null;
}

/** What a construct does, all mm: spaces under it (+ filled with cement, - bone cut) and laxity (+ loose, - tight). */
export interface ConstructEffect {
  readonly femurDistalSpaceMm: PerCompartment<number>;
  readonly femurPosteriorSpaceMm: PerCompartment<number>;
  readonly tibiaSpaceMm: PerCompartment<number>;
  readonly flangeGapMm: number;
  /** K: insert surface proximal to the target joint line. */
  readonly bearingMm: number;
  readonly extensionLaxityMm: PerCompartment<number>;
  readonly flexionLaxityMm: PerCompartment<number>;
  readonly femurOverhangMm: number;
  readonly trayOverhangMm: number;
  /**
   * Where the tibial stem and its coupler set the tray (GAP-31); null = there is a stem and its place is not known. Absent in
   * plans made before it was worked out.
   */
  readonly trayPlace?: TrayPlace | null;
  /** Laxity in mid-flexion (GAP-23); absent in plans made before it was worked out. */
  readonly midFlexionMm?: readonly { readonly flexionDeg: number; readonly laxityMm: PerCompartment<number> }[];
}

/** One term of the cost, shown beside its share. */
export interface LedgerLine {
  readonly id: string;
  readonly label: string;
  /** The amount that is charged for, in its unit. */
  readonly amount: number;
  readonly unit: 'mm' | 'deg' | 'count' | 'level';
  readonly weight: number;
  readonly cost: number;
  readonly reason: string;
}

/** A term of the cost whose data is missing: charged to nobody, shown to everybody. */
export interface UnknownTerm {
  readonly id: string;
  readonly label: string;
  readonly because: string;
  /** What would settle it. */
  readonly mend: string;
}

export interface SolvedConstruct {
  readonly construct: Construct;
  readonly effect: ConstructEffect;
  readonly cost: number;
  readonly ledger: readonly LedgerLine[];
  readonly notKnown?: readonly UnknownTerm[];
  /** What to keep in mind, e.g. a hinge in theatre where a ligament was not examined. */
  readonly notes?: readonly Reason[];
  /** How it differs in kind from the best one, in plain words; empty for the best. */
  readonly differs: string;
}

/** Numbers that the solver is told besides state, catalogue and weights. */
export interface SolverSettings {
  /** Least polyethylene that is accepted under the bearing surface, mm. */
  readonly leastPolyethyleneMm: number;
  /** How many next-best constructs to give. */
  readonly alternatives: number;
}

export type SolverResult =
  | { readonly kind: 'solved'; readonly answer: SolverAnswer }
  | { readonly kind: 'infeasible'; readonly why: Infeasible };

export interface SolverAnswer {
  readonly best: SolvedConstruct;
  readonly alternatives: readonly SolvedConstruct[];
  /** Number of combinations that the compatible catalogue allows. */
  readonly combinations: number;
  /** What was fixed by hand, and what it costs; absent = nothing was. */
  readonly pinned?: PinnedCost;
}

/** No construct fits: the limits that exclude the nearest ones, and the smallest relaxation of each. */
export interface Infeasible {
  readonly clashes: readonly (Reason & { readonly byMm?: number })[];
  readonly nearest: SolvedConstruct | null;
}
