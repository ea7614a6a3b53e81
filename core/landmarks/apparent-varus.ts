import { toRad } from '../measure/angle.ts';
import type { EvidenceFilm, EvidencePosture } from './knee-evidence.ts';

/**
 * Varus that a knee flexed by `flexionDeg` seems to have when the limb is turned outward by `rotationDeg` (external +): the
 * projection law `flexion x sin(rotation)`, deg, + = more varus, 0 when straight or not turned. Checked against 60 CT
 * limbs (Brunner 2023).
 */
export const apparentVarus = (flexionDeg: number, rotationDeg: number): number =>
  flexionDeg * Math.sin(toRad(rotationDeg));

/** Beyond this the film should be taken again, deg: angles are off and distances along the limb foreshortened. */
export const TAKE_AGAIN_DEG = 2;

/** Apparent varus on one film, deg; null when it is not known. Flexion and rotation are stated for the present long-leg film alone. */
export function apparentVarusOn(film: EvidenceFilm, posture: EvidencePosture | undefined): number | null {
  const { filmFlexionDeg: flexion, filmRotationDeg: rotation } = posture ?? {};
  if (film.view !== 'long-leg' || film.role !== 'present') return null;
  return flexion === undefined || rotation === undefined ? null : apparentVarus(flexion, rotation);
}
