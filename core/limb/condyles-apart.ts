import { millimetres } from '../landmarks/millimetres.ts';
import { shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import type { Line } from '../plane/line.ts';
import { signedDistance } from '../plane/line.ts';
import type { Point } from '../plane/point.ts';
import { type Definition, LATERAL } from './definition.ts';

/** Condyles further apart than this on a lateral film, mm: it is too rotated to be measured (LIMB-32). */
export const CONDYLES_APART_MM = 7;

/**
 * How far the backs of both condyles lie apart on a lateral film, square to the femoral shaft, in the frame's unit; never negative.
 * 0 = a true lateral. About 0.8 mm for each degree of rotation where the condyles lie 46 mm apart (derived: 46 sin 1 degree).
 */
export const condylesApart = (one: Point<'sagittal'>, other: Point<'sagittal'>, shaft: Line<'sagittal'>): number =>
  Math.abs(signedDistance(one, shaft) - signedDistance(other, shaft));

export const CONDYLES_APART: Definition<'sagittal'> = {
  id: 'posterior-condyles-apart',
  label: 'Posterior condyles apart on the lateral film',
  frame: 'sagittal',
  unit: 'mm',
  sign: '0 = true lateral; larger = the film is rotated',
  rule: 'LIMB-32',
  source: 'posterior tibial condyles more than 7 mm apart reject a film (Sage 2024, 10.1177/23259671241296858)',
  normal: 'at most 7; stated there for the tibia, carried over to the femoral component (choice)',
  needsScale: true,
  variants: () => [
    {
      name: 'square to the posterior cortex of the femur',
      views: LATERAL,
      inputs: ['posterior-condyle', 'posterior-condyle-other', ...shaftMarks('femoral', 'posterior')],
      formula: (r) => {
        const shaft = shaftLine('femoral', 'posterior', r);
        return shaft.ok
          ? millimetres(condylesApart(r.at('posterior-condyle'), r.at('posterior-condyle-other'), shaft.value), r)
          : shaft;
      },
    },
  ],
};
