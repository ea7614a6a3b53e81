import { millimetres } from '../landmarks/millimetres.ts';
import { shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { type Line, signedDistance } from '../plane/line.ts';
import type { Point } from '../plane/point.ts';
import { type Definition, LATERAL } from './definition.ts';

/**
 * How far the flange of a femoral component stands off the extended anterior cortex of the shaft, in the frame's unit. `cortex` runs from
 * distal to proximal. **+ = in front of it, 0 = flush, - = behind it: the cortex is notched.** General practice (from memory).
 */
export const flangeGap = (flange: Point<'sagittal'>, cortex: Line<'sagittal'>): number =>
  0 - signedDistance(flange, cortex);

/** Translation of the femoral component from the side: where its flange stands against the front of the shaft. */
export const FLANGE_GAP: Definition<'sagittal'> = {
  id: 'femoral-flange-gap',
  label: 'Flange against the anterior cortex',
  frame: 'sagittal',
  unit: 'mm',
  sign: '+ = in front of the cortex, 0 = flush, - = notching it',
  rule: 'LIMB-25',
  source: 'general practice (from memory)',
  needsScale: true,
  variants: (state) =>
    state === 'native'
      ? []
      : [
          {
            name: 'extended anterior cortex',
            views: LATERAL,
            inputs: ['femoral-flange', ...shaftMarks('femoral', 'anterior')],
            formula: (r) => {
              const cortex = shaftLine('femoral', 'anterior', r);
              return cortex.ok ? millimetres(flangeGap(r.at('femoral-flange'), cortex.value), r) : cortex;
            },
          },
        ],
};
