import { ANKLE, ankle, HIP, hip } from '../landmarks/bony-lines.ts';
import { femoralCentres, tibialCentres } from '../landmarks/knee-centre.ts';
import { wrap180 } from '../measure/angle.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { angleFromTo, direction } from '../plane/direction.ts';
import type { Point } from '../plane/point.ts';
import { type Definition, LONG_LEG } from './definition.ts';

export interface MechanicalPoints {
  readonly hip: Point<'coronal'>;
  readonly femoralKnee: Point<'coronal'>;
  readonly tibialKnee: Point<'coronal'>;
  readonly ankle: Point<'coronal'>;
}

/**
 * Hip-knee-ankle deviation: how far the mechanical axes of femur and tibia depart from one straight line.
 * Points in one coronal frame. Result in deg, **+ = valgus, 0 = straight, - = varus**; the medial angle is 180 + it.
 * Femoral and tibial knee centre need not coincide. Source: MacDessi 2021 (sign); definition after Moreland 1987.
 * Refuses an axis without length.
 * Example: `hka({ hip: (-12, 440), femoralKnee: (0, 0), tibialKnee: (0, 0), ankle: (-25, -370) })` -> -5.4277.
 */
export const hka = (p: MechanicalPoints): Outcome<number> =>
  combine(direction(p.femoralKnee, p.hip), direction(p.tibialKnee, p.ankle), (femur, tibia) =>
    ok(wrap180(angleFromTo(femur, tibia) - 180)),
  );

export const HKA: Definition<'coronal'> = {
  id: 'hka',
  label: 'Hip-knee-ankle deviation (HKA)',
  frame: 'coronal',
  unit: 'deg',
  sign: '+ = valgus, 0 = straight, - = varus',
  rule: 'LIMB-1',
  source: 'MacDessi 2021 (sign); Moreland 1987',
  normal: '-1.3 ± 2.3 (500 normal knees, MacDessi 2021)',
  readingSd: 0.7,
  posture: ['load', 'rotation'],
  variants: (state) =>
    femoralCentres(state).flatMap((f) =>
      tibialCentres(state).map((t) => ({
        name: `${f.name}; ${t.name}`,
        views: LONG_LEG,
        inputs: [...new Set([HIP, ...f.inputs, ...t.inputs, ...ANKLE])],
        formula: (r) =>
          combine(f.centre(r), t.centre(r), (femoralKnee, tibialKnee) =>
            hka({ hip: hip(r), femoralKnee, tibialKnee, ankle: ankle(r) }),
          ),
      })),
    ),
};
