import type { Side } from '../landmarks/side.ts';

/** Constraint ladder, least first. */
export const CONSTRAINT_LEVELS = ['ps', 'vvc', 'hinge'] as const;
export type ConstraintLevel = (typeof CONSTRAINT_LEVELS)[number];

/** Closed or open line in the component's own frame, mm: `[x, y]` pairs. */
export type Polyline = readonly (readonly [number, number])[];

/**
 * Outlines to draw to scale. Coronal: x = lateral +, y = proximal +. Sagittal: x = anterior +, y = proximal +.
 * Origin of a femur: on the distal surface; coronal x = 0 at mid-width; sagittal x = 0 at the posterior-most surface.
 * Origin of a tray: middle of its upper face. Origin of an insert: middle of its lower face.
 */
export interface Outlines {
  readonly coronal: readonly Polyline[];
  readonly sagittal: readonly Polyline[];
}

interface Part {
  readonly ref: string;
  readonly name: string;
}

export interface Femur extends Part {
  readonly size: number;
  readonly side: Side | 'both';
  /** td, tp: distal and posterior thickness, mm. */
  readonly distalMm: number;
  readonly posteriorMm: number;
  /** A: anteroposterior size, flange face to posterior surface, mm. */
  readonly apMm: number;
  readonly widthMm: number;
  readonly boxWidthMm: number;
  readonly boxDepthMm: number;
  /** Angle of the stem to the perpendicular of the distal face in the coronal plane, valgus +, deg. */
  readonly stemValgusDeg: number;
  /** From the flange's face back to the stem's axis, mm; absent = not stated, then an offset front to back is not judged. */
  readonly stemBehindFlangeMm?: number;
  readonly levels: readonly ConstraintLevel[];
  readonly outlines: Outlines;
}

/** Distal or posterior femoral augment of one thickness. */
export interface FemoralAugment extends Part {
  readonly face: 'distal' | 'posterior';
  readonly thicknessMm: number;
  readonly femurSizes: readonly number[];
}

export interface Tray extends Part {
  readonly size: number;
  /** tt: thickness from bone face to insert face, mm. */
  readonly thicknessMm: number;
  readonly widthMm: number;
  readonly apMm: number;
  readonly keelMm: number;
  readonly outlines: Outlines;
}

/** Tibial block under one half of the tray, or under both when used twice. */
export interface TibialAugment extends Part {
  readonly thicknessMm: number;
  readonly traySizes: readonly number[];
}

export interface Insert extends Part {
  readonly size: number;
  readonly level: ConstraintLevel;
  /** Labelled thickness, mm, and h: true height from its lower face to the bearing surface's low point, mm. */
  readonly labelMm: number;
  readonly heightMm: number;
  /** Least polyethylene under the bearing surface, mm. */
  readonly leastPolyethyleneMm: number;
  /** Absent = drawn as a plain slab of its height. */
  readonly outlines?: Outlines;
}

export interface Stem extends Part {
  readonly bone: 'femur' | 'tibia' | 'both';
  readonly fixation: 'cemented' | 'press-fit';
  readonly diameterMm: number;
  readonly lengthMm: number;
  /** Absent = straight. */
  readonly shape?: 'straight' | 'bowed';
  /** Radius of a bowed stem's axis, mm; stands with `shape: 'bowed'` only. */
  readonly bowRadiusMm?: number;
}

export interface OffsetCoupler extends Part {
  readonly bone: 'femur' | 'tibia' | 'both';
  readonly offsetMm: number;
  readonly addedLengthMm: number;
  /** Sizes of the femur or of the tray that it takes; absent = all. */
  readonly sizes?: readonly number[];
}

/** Porous metaphyseal part that gives fixation in zone 2. */
export interface Cone extends Part {
  readonly bone: 'femur' | 'tibia';
  /** Greatest width and depth, mm; depth absent = not stated. */
  readonly widthMm: number;
  readonly apMm?: number;
  readonly heightMm: number;
  /** Inner opening, which box and stem must pass, mm; absent = not stated, so not judged. */
  readonly boreMm?: number;
  /** Sizes of the femur or of the tray that it takes. */
  readonly sizes: readonly number[];
}

/** Stepped metaphyseal part, joined to its component, that gives fixation in zone 2. Never beside a cone in one bone. */
export interface Sleeve extends Part {
  readonly bone: 'femur' | 'tibia';
  /** Greatest width and depth, mm. */
  readonly widthMm: number;
  readonly apMm: number;
  readonly heightMm: number;
  /** Sizes of the femur or of the tray that it takes. */
  readonly sizes: readonly number[];
  /** Whether an offset coupler may stand behind it; absent = no: it takes a straight stem. */
  readonly takesOffset?: boolean;
}

/**
 * Segmental component: it replaces the end of its bone, joint surface and metaphysis together (GAP-24, GAP-25
 * in docs/rules/gaps.md). It joins the same compatibility tables as the femurs or the trays, by its size.
 */
export interface Segment extends Part {
  readonly bone: 'femur' | 'tibia';
  readonly side: Side | 'both';
  readonly size: number;
  readonly levels: readonly ConstraintLevel[];
  /**
   * Least length, mm, from the face that moves in the joint (femur: distal surface; tibia: the face that carries the
   * insert) to the cut of the bone.
   */
  readonly replacesMm: number;
  /** Lengths that pieces between add to it, mm, each > 0; it may always stand without one. */
  readonly stepsMm: readonly number[];
  readonly widthMm: number;
  readonly apMm: number;
  /** Femur: how far its posterior surface may stand before or behind the target, since no condyle holds it, mm. */
  readonly apFreeMm: number;
  /** Femur: angle of the stem to the perpendicular of the distal face in the coronal plane, valgus +, deg; absent = 0. */
  readonly stemValgusDeg?: number;
  /** Absent = drawn as plain boxes. */
  readonly outlines?: Outlines;
}

/** What may be joined with what, by size; anything not listed is refused. */
export interface CompatibilityTable {
  readonly femurInsert: readonly {
    readonly femurSize: number;
    readonly insertSize: number;
    readonly level: ConstraintLevel;
  }[];
  readonly insertTray: readonly { readonly insertSize: number; readonly traySize: number }[];
  readonly femurTray: readonly { readonly femurSize: number; readonly traySize: number }[];
}

/** Limits stated by the maker of the system. */
export interface CatalogueLimits {
  /** Deepest space that cement alone may fill under a component, mm. */
  readonly cementMm: number;
  /** Most bone that may be cut away to seat a component, mm. */
  readonly cutMm: number;
  /** Most overhang of a component beyond the bone, each side, mm. */
  readonly overhangMm: number;
  /** Most that the flange may stand off the anterior cortex, mm. */
  readonly flangeGapMm: number;
  readonly slopeDeg: readonly number[];
}

export interface Catalogue {
  readonly format: 'gapline-catalogue';
  readonly version: '1.0';
  readonly id: string;
  readonly name: string;
  /** True for a system that exists only as an example. Shown wherever its parts are named. */
  readonly invented: boolean;
  readonly retrievedOn: string;
  readonly sourceDocument: string;
  readonly femurs: readonly Femur[];
  readonly femoralAugments: readonly FemoralAugment[];
  readonly trays: readonly Tray[];
  readonly tibialAugments: readonly TibialAugment[];
  readonly inserts: readonly Insert[];
  readonly stems: readonly Stem[];
  readonly offsetCouplers: readonly OffsetCoupler[];
  /** Absent = the system has none; then zone 2 of a damaged metaphysis cannot be restored. */
  readonly cones?: readonly Cone[];
  readonly sleeves?: readonly Sleeve[];
  /** Absent = the system cannot replace the end of a bone. */
  readonly segments?: readonly Segment[];
  readonly compatibility: CompatibilityTable;
  readonly limits: CatalogueLimits;
}
