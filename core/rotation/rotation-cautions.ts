import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { toDeg, toRad } from '../measure/angle.ts';
import type { Warning } from '../measure/outcome.ts';
import { distance } from '../plane/point.ts';
import type { KneeOnStack } from './knee-on-stack.ts';
import { inWords } from './published-reading.ts';
import { NATIVE_FEMUR, NATIVE_FEMUR_ELSEWHERE_DEG } from './published-rotation.ts';

/** Slices that lean less than this are taken as axial without a word, deg (choice). */
const LEAN_DEG = 10;

/** A stack that leans from axial: the value holds in the plane of the slices. */
export const leaningSlices = ({ frame }: KneeOnStack): readonly Warning[] =>
  frame.obliqueDeg <= LEAN_DEG
    ? []
    : [
        {
          code: 'slices-lean',
          message: `The slices lean ${frame.obliqueDeg.toFixed(0)} degrees from axial: the rotation holds in their plane.`,
          mend: 'Where an axial series of the same scan exists, measure on that.',
        },
      ];

/** The clinical axis is another axis than the published one. */
export const clinicalAxis = (inputs: readonly LandmarkId[]): readonly Warning[] =>
  inputs.includes('ct-medial-epicondyle-peak')
    ? [
        {
          code: 'clinical-axis',
          message:
            'Measured against the clinical axis (peak, not sulcus): the condyles of native knees lie 4.4 ± 2.2 degrees internal to it, 3.1 ± 1.9 to the surgical one (Servien 2008).',
          mend: 'Mark the sulcus where it can be seen.',
        },
      ]
    : [];

/** How far a limb commonly lies askew on the table, deg (assumption); what it turns the tubercle line by is said above this. */
const ASKEW_DEG = 5;
const WORTH_SAYING_DEG = 1;

/**
 * The centre of the plateau and the tubercle lie on different slices (ROT-7): a limb that lies askew to the slices shifts one
 * against the other by their distance times the tangent of its lean, and turns the line between them.
 */
export function obliqueLimb({ placed }: KneeOnStack, inputs: readonly LandmarkId[]): readonly Warning[] {
  const [centre, tip] = [placed.get('ct-plateau-outline'), placed.get('ct-tubercle-tip')];
  if (!centre || !tip || !inputs.includes('ct-tubercle-tip')) return [];
  const apart = Math.abs(centre.levelMm - tip.levelMm);
  const turn = toDeg(Math.atan2(apart * Math.tan(toRad(ASKEW_DEG)), distance(centre.at, tip.at)));
  if (!(turn >= WORTH_SAYING_DEG)) return [];
  return [
    {
      code: 'limb-askew',
      message: `Plateau and tubercle lie ${apart.toFixed(0)} mm apart along the scan: a tibia that leans ${ASKEW_DEG} degrees sideways to the slices turns this value by ${turn.toFixed(1)} degrees. Not in the spread.`,
      mend: 'Look at the survey picture: the tibia should run square to the slices.',
    },
  ];
}

/** Series disagree about the native femur of the sexes: by how much the combined value hangs on which one is followed. */
export function elsewhere(sex: 'female' | 'male'): Warning {
  const shift = NATIVE_FEMUR[sex].meanDeg - NATIVE_FEMUR_ELSEWHERE_DEG;
  return {
    code: 'native-mean-disputed',
    message: `Counted from ${inWords(NATIVE_FEMUR[sex].meanDeg)} in a ${sex} femur (Berger 1993); series that find about 3 internal in both sexes (Servien 2008) would make it ${Math.abs(shift).toFixed(1)} degrees more ${shift > 0 ? 'external' : 'internal'}.`,
  };
}
