import { apparentVarusOn, TAKE_AGAIN_DEG } from '../landmarks/apparent-varus.ts';
import type { EvidenceFilm, EvidencePosture } from '../landmarks/knee-evidence.ts';
import type { Warning } from '../measure/outcome.ts';

/** Less than this is lost in the reading error, deg. */
const WORTH_SAYING_DEG = 0.5;

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
  const varus = apparentVarusOn(film, posture);
  if (varus === null || Math.abs(varus) <= WORTH_SAYING_DEG) return [];
  const { filmFlexionDeg: flexion, filmRotationDeg: rotation } = posture ?? {};
  const words = `Flexed ${flexion} and turned ${rotation} degrees on the film: about ${Math.abs(varus).toFixed(1)} degrees of ${varus > 0 ? 'varus' : 'valgus'} are projection, not bone.`;
  return [
    Math.abs(varus) > TAKE_AGAIN_DEG
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
