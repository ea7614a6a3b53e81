import type { BoneClass, BoneQuality, LigamentState } from '../bone/bone-class.ts';
import type { PerCompartment, Side } from '../landmarks/side.ts';

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
}
