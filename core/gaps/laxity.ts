import { toRad } from '../measure/angle.ts';

/**
 * Laxity of one side in extension, spec section 4: `E = e + J - K`.
 *
 * @param onTargetMm e: laxity at 0 degrees if the surfaces stood exactly on target, mm; 0 = just taut, + = loose.
 * @param femurProximalMm J: distal femoral surface proximal to the target joint line, mm.
 * @param bearingMm K: insert surface proximal to the target joint line, mm.
 * @returns mm; 0 = just taut, + = loose, - = tight (a block to extension).
 * Valid for any finite input. Example: `extensionLaxityMm(1, 2, 0)` is 3, raising the femur opens extension.
 */
export const extensionLaxityMm = (onTargetMm: number, femurProximalMm: number, bearingMm: number): number =>
  onTargetMm + femurProximalMm - bearingMm;

/** Slope of the tray, and what it acts over. */
export interface SlopeEffect {
  /** Tibial slope, posterior down +, deg. */
  readonly slopeDeg: number;
  /** Slope at which the given laxity holds, deg. */
  readonly referenceSlopeDeg: number;
  /** y_c: how far the flexion contact lies behind the extension contact, mm, >= 0. */
  readonly contactBehindMm: number;
}

/**
 * How much more slope than the reference opens the flexion gap: `y_c (tan slope - tan reference)`.
 *
 * @returns mm, + = opens. 15 mm behind: 0.26 mm for one degree.
 * Valid for slopes strictly between -90 and 90 degrees; real trays have 0 to 7.
 */
export const slopeOpeningMm = ({ slopeDeg, referenceSlopeDeg, contactBehindMm }: SlopeEffect): number =>
  contactBehindMm * (Math.tan(toRad(slopeDeg)) - Math.tan(toRad(referenceSlopeDeg)));

/**
 * Laxity of one side at 90 degrees, spec section 4: `F = f + q - K + slope opening`.
 *
 * @param onTargetMm f: laxity at 90 degrees if the surfaces stood exactly on target, mm.
 * @param femurAnteriorMm q: posterior femoral surface anterior to the target posterior line, mm.
 * @param bearing K in mm, and the opening by slope in mm.
 * @returns mm; 0 = just taut, + = loose, - = tight.
 * Example: `flexionLaxityMm(0, 3, { bearingMm: 0, slopeOpeningMm: 0 })` is 3, a smaller femur opens flexion.
 */
export const flexionLaxityMm = (
  onTargetMm: number,
  femurAnteriorMm: number,
  bearing: { readonly bearingMm: number; readonly slopeOpeningMm: number },
): number => onTargetMm + femurAnteriorMm - bearing.bearingMm + bearing.slopeOpeningMm;
