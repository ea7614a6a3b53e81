import type { EvidenceFilm, EvidencePosture } from '../landmarks/knee-evidence.ts';
import { toRad } from '../measure/angle.ts';
import type { Warning } from '../measure/outcome.ts';

/**
 * Varus that a knee flexed by `flexionDeg` seems to have when the limb is turned outward by `rotationDeg` (external +): the
 * projection law `flexion x sin(rotation)`, deg, + = more varus. Checked against 60 CT limbs (Brunner 2023).
 */
export const apparentVarus = (flexionDeg: number, rotationDeg: number): number =>
  flexionDeg * Math.sin(toRad(rotationDeg));

/** Beyond this the film should be taken again (LIMB-19). */
const RESHOOT_DEG = 2;

/** Cautions from how the limb stood on the film. */
export function postureCautions(
  kinds: readonly ('load' | 'rotation')[],
  film: EvidenceFilm,
  posture: EvidencePosture | undefined,
): readonly Warning[] {
  const out: Warning[] = [];
  if (kinds.includes('load') && film.standing === false) out.push(SUPINE);
  if (kinds.includes('load') && film.standing === undefined) out.push(STANDING_UNKNOWN);
  if (kinds.includes('rotation')) out.push(...rotationCautions(film, posture));
  return out;
}

function rotationCautions(film: EvidenceFilm, posture: EvidencePosture | undefined): readonly Warning[] {
  const { filmFlexionDeg: flexion, filmRotationDeg: rotation } = posture ?? {};
  // Flexion and rotation are stated for the long-leg film alone.
  if (film.view !== 'long-leg' || film.role !== 'present') return [];
  if (flexion === undefined || rotation === undefined) return [];
  const varus = apparentVarus(flexion, rotation);
  if (Math.abs(varus) <= 0.5) return [];
  const words = `Flexed ${flexion} and turned ${rotation} degrees on the film: about ${Math.abs(varus).toFixed(1)} degrees of ${varus > 0 ? 'varus' : 'valgus'} are projection, not bone.`;
  return [
    Math.abs(varus) > RESHOOT_DEG
      ? {
          code: 'rotation-with-flexion',
          message: words,
          field: 'examination.filmRotationDeg',
          mend: 'Take the film again with the patella forward.',
        }
      : { code: 'some-rotation-with-flexion', message: words, field: 'examination.filmRotationDeg' },
  ];
}

const SUPINE: Warning = {
  code: 'supine-film',
  message:
    'Not a standing film: standing adds about 1.9 degrees of varus after knee replacement (1.2 in healthy knees, Brown 2019).',
  field: 'films.standing',
  mend: 'Plan on a standing film.',
};

const STANDING_UNKNOWN: Warning = {
  code: 'standing-not-known',
  message:
    'It is not stated whether this film was taken standing; lying down hides about 1.9 degrees of varus after knee replacement (Brown 2019).',
  field: 'films.standing',
  mend: 'State whether the film was taken standing.',
};
