import type { PerCompartment } from '../landmarks/side.ts';

/**
 * Loss of one surface on one side, seen at the resection plane after virtual removal: the bone face of the present component, on its
 * higher side, square to the target (PLAN-21). Absent = not known.
 */
export interface SurfaceLoss {
  /** Deepest loss below the plane, mm, >= 0. */
  readonly depthMm?: number;
  /** Standard deviation of that depth, mm; absent = asked for before a forecast, never taken as zero. */
  readonly depthSdMm?: number;
  /** Share of the surface without support, %, 0 to 100. */
  readonly unsupportedPct?: number;
  readonly rim?: 'intact' | 'lost';
  readonly contained?: boolean;
}

export const FLARES = ['intact', 'short-medial', 'short-lateral', 'short-both', 'absent'] as const;
export type Flare = (typeof FLARES)[number];

/** The metaphysis and the cavity in it, for sleeves and cones. */
export interface MetaphysisMap {
  readonly flare?: Flare;
  /** Cavity: width from the AP film, depth front to back from the lateral one, height along the bone, mm. */
  readonly cavityWidthMm?: number;
  readonly cavityApMm?: number;
  readonly cavityHeightMm?: number;
  /** Where the cavity's mouth lies beyond the resection plane, away from the joint, mm. */
  readonly cavityFromPlaneMm?: number;
  /** Thinnest wall left round the cavity, mm. */
  readonly wallMm?: number;
  /** Share of the cavity's wall that is host bone, %. */
  readonly hostContactPct?: number;
}

export const WEAK_SPOTS = ['window', 'osteotomy', 'perforation', 'fracture', 'screw-holes'] as const;

/** A place in the shaft that a stem must pass. */
export interface WeakSpot {
  readonly kind: (typeof WEAK_SPOTS)[number];
  /** From the target joint line to its far end, along the bone, mm. */
  readonly farEndMm: number;
}

export interface DiaphysisMap {
  readonly weakSpots?: readonly WeakSpot[];
  /** Outer diameter of the shaft there, mm: what "two diameters" means. */
  readonly outerDiameterMm?: number;
  /** Nearest end of other metal in this bone (a hip stem, a plate) from the target joint line, mm. */
  readonly otherMetalMm?: number;
}

/** Whether what holds the ligament or tendon to the bone is there. */
export type Attachment = 'held' | 'lost';

export interface FemurMap {
  readonly distal?: Partial<PerCompartment<SurfaceLoss>>;
  readonly posterior?: Partial<PerCompartment<SurfaceLoss>>;
  readonly anterior?: SurfaceLoss;
  readonly metaphysis?: MetaphysisMap;
  readonly diaphysis?: DiaphysisMap;
  readonly medialCollateral?: Attachment;
  readonly lateralCollateral?: Attachment;
  readonly reachesEpicondyles?: boolean;
}

export interface TibiaMap {
  readonly plateau?: Partial<PerCompartment<SurfaceLoss>>;
  readonly metaphysis?: MetaphysisMap;
  readonly diaphysis?: DiaphysisMap;
  readonly medialCollateral?: Attachment;
  readonly lateralCollateral?: Attachment;
  readonly patellarTendon?: Attachment;
  /** The loss reaches distal to the tubercle. */
  readonly reachesTubercle?: boolean;
}

export const DRAWN_SURFACES = [
  'femur-distal',
  'femur-posterior',
  'femur-anterior',
  'tibia-plateau',
  'femur-metaphysis',
  'tibia-metaphysis',
] as const;

/** A defect drawn on a film: a closed outline in film pixels. Depth and share are measured from it. */
export interface DrawnDefect {
  readonly id: string;
  readonly film: string;
  readonly surface: (typeof DRAWN_SURFACES)[number];
  /** Side of the knee; `both` for a metaphyseal cavity or the front. */
  readonly compartment: 'medial' | 'lateral' | 'both';
  readonly outline: readonly { readonly x: number; readonly y: number }[];
}

/** How a present component is held; decides what its removal may take. */
export const FIXATIONS_IN_PLACE = [
  'loose',
  'cemented',
  'cemented-stem',
  'ingrown',
  'ingrown-stem',
  'sleeve-or-cone',
] as const;
export type FixationInPlace = (typeof FIXATIONS_IN_PLACE)[number];

/** Loss at removal as a practice estimates it: least, most likely, most, mm. Always labelled as the practice's own. */
export interface RemovalEstimate {
  readonly fixation: FixationInPlace;
  readonly surface: 'femur-distal' | 'femur-posterior' | 'tibia';
  readonly leastMm: number;
  readonly likelyMm: number;
  readonly mostMm: number;
  /** Chance that the bone turns out one class worse than the films show, 0 to 1. */
  readonly classWorse?: number;
}
