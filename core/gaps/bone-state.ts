import type { BoneClass, BoneQuality, LigamentState } from '../bone/bone-class.ts';
import type { PerCompartment, Side } from '../landmarks/side.ts';
import type { OffsetNeeded } from '../stems/offset-direction.ts';
import type { SagittalPoint } from './arc-laxity.ts';

/** What the measured canal says of one stem of the catalogue. */
export interface StemLimit {
  /** The stem's reference. */
  readonly ref: string;
  /** Whether it passes to its full length. */
  readonly passes: boolean;
  /** Longest length of this diameter that passes, mm; null = not worked out. */
  readonly longestPassingMm: number | null;
  /**
   * How much narrower it is than its own stretch of the canal asks for, mm, >= 0 (STM-2); then the canal's one diameter
   * does not count for it. Null or absent = not measured.
   */
  readonly looseMm?: number | null;
  /**
   * Tibia: what would have to set the tray off this stem for it to stand over the middle of the bone (GAP-31). Null or absent
   * = not known: then no coupler can be judged.
   */
  readonly offset?: OffsetNeeded | null;
  /** By how much a coupler may lengthen it before the canal stops it, mm, >= 0; null or absent = not known. */
  readonly mostAddedMm?: number | null;
  /** Least tilt that the canal forces on stem and component, deg; null = that view was not measured. */
  readonly forcedTiltDeg: {
    /** + = valgus of the component against the planned axis. */
    readonly coronal: number | null;
    /** Femur: + = flexion of the component. Tibia: + = more posterior slope. */
    readonly sagittal: number | null;
  };
}

/** What the measured cavity says of one cone or sleeve of the catalogue. */
export interface CavityFit {
  readonly ref: string;
  readonly fits: boolean;
  /** Why not, or how well, in plain words. */
  readonly reasons: readonly string[];
}

/** Bone and ligaments after removal and freshening, spec section 3. Millimetres. */
export interface BoneState {
  readonly side: Side;
  /** D_x: distal femoral support, proximal to the target joint line. */
  readonly femurDistalMm: PerCompartment<number>;
  /** P_x: posterior femoral support, anterior to the target posterior line. */
  readonly femurPosteriorMm: PerCompartment<number>;
  /** A0: anterior cortex to target posterior line. */
  readonly anteriorToPosteriorMm: number;
  /** W_f, W_t: mediolateral width at the cuts. */
  readonly femurWidthMm: number;
  readonly tibiaWidthMm: number;
  /** T_x: tibial support, distal to the target joint line. */
  readonly tibiaMm: PerCompartment<number>;
  /** e_x, f_x: laxity at 0 and 90 degrees if the surfaces stood exactly on target; 0 = just taut, negative = contracted. */
  readonly extensionLaxityMm: PerCompartment<number>;
  readonly flexionLaxityMm: PerCompartment<number>;
  /** y_c: how far the flexion contact lies behind the extension contact. */
  readonly flexionContactBehindMm: number;
  /** Tibial slope, posterior down +, at which the flexion laxity holds, deg. */
  readonly referenceSlopeDeg: number;
  readonly femurClass: BoneClass;
  readonly tibiaClass: BoneClass;
  readonly femurQuality: BoneQuality | 'unknown';
  readonly tibiaQuality: BoneQuality | 'unknown';
  readonly mcl: LigamentState;
  readonly lcl: LigamentState;
  readonly extensorMechanism: LigamentState;
  /** Passive hyperextension, deg; null = not examined. */
  readonly recurvatumDeg: number | null;
  /** Inner canal diameter available to a stem, mm; null = not measured. */
  readonly femurCanalMm: number | null;
  readonly tibiaCanalMm: number | null;
  /**
   * Sagittal outline that the femur should have: y anterior of the target posterior line, z proximal of the target
   * joint line, mm, so that it touches both. Absent = not known: the component's own shape is the reference.
   */
  readonly targetOutline?: readonly SagittalPoint[];
  /** One entry for each stem that was tried in the measured canal; absent = canal walls not measured. */
  readonly femoralStemLimits?: readonly StemLimit[];
  readonly tibialStemLimits?: readonly StemLimit[];
  /** One entry for each cone and sleeve that was tried in the measured cavity; absent = cavity not measured. */
  readonly femurCavity?: readonly CavityFit[];
  readonly tibiaCavity?: readonly CavityFit[];
}
