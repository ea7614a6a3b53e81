import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Reading } from '../landmarks/reading.ts';
import { type ShaftAxis, shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { wrap180 } from '../measure/angle.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { angleFromTo, type Direction, direction } from '../plane/direction.ts';
import { type Definition, LATERAL, type Variant } from './definition.ts';

/**
 * Flexion of the femoral component: between its straight distal inner face and the perpendicular of the femur's
 * axis on a lateral film. `face` runs from back to front, `axis` from distal to proximal. Result in deg, **+ = flexed (front
 * of the component turned distally), 0 = square, - = extended**. Source: Ewald 1989 (film angle gamma).
 */
export const componentFlexion = (face: Direction<'sagittal'>, axis: Direction<'sagittal'>): number =>
  wrap180(angleFromTo(face, axis) - 90);

export const FEMORAL_FACE: readonly LandmarkId[] = [
  'femoral-component-distal-anterior',
  'femoral-component-distal-posterior',
];

/** The straight distal inner face of the component, from back to front. */
export const faceDirection = (r: Reading<'sagittal'>): Outcome<Direction<'sagittal'>> =>
  direction(r.at('femoral-component-distal-posterior'), r.at('femoral-component-distal-anterior'));

const AXES: readonly (readonly [ShaftAxis, string])[] = [
  ['both', 'axis: both cortices of the distal femur'],
  ['anterior', 'axis: anterior cortex of the distal femur'],
  ['posterior', 'axis: posterior cortex of the distal femur'],
];

export const FEMORAL_FLEXION: Definition<'sagittal'> = {
  id: 'femoral-component-flexion',
  label: 'Femoral component flexion',
  frame: 'sagittal',
  unit: 'deg',
  sign: '+ = flexed, 0 = square to the named axis, - = extended',
  rule: 'LIMB-15',
  source: 'Ewald 1989',
  normal: 'best range of motion at 0 to 3 (n 113, BMC Musculoskelet Disord 2023)',
  readingSd: 1.5,
  variants: (state) =>
    state === 'native'
      ? []
      : AXES.map(
          ([axis, name]): Variant<'sagittal'> => ({
            name,
            views: LATERAL,
            inputs: [...FEMORAL_FACE, ...shaftMarks('femoral', axis)],
            formula: (r) =>
              combine(faceDirection(r), shaftLine('femoral', axis, r), (face, line) =>
                ok(componentFlexion(face, line.along)),
              ),
          }),
        ),
};
