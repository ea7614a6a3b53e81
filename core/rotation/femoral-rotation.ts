import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { angleFromTo, direction } from '../plane/direction.ts';
import type { StackReading } from './knee-on-stack.ts';

/** Medial end of the epicondylar axis: the sulcus gives the surgical axis, the peak the clinical one. */
export type MedialEnd = 'ct-medial-epicondyle-sulcus' | 'ct-medial-epicondyle-peak';

export const femoralInputs = (medial: MedialEnd): readonly LandmarkId[] => [
  'ct-lateral-epicondyle',
  medial,
  'ct-femoral-posterior-medial',
  'ct-femoral-posterior-lateral',
];

/**
 * Rotation of the femoral component (ROT-2): its posterior condylar line against the epicondylar axis, both from medial to
 * lateral, in the plane of the slices. Degrees, **internal negative, external +**, 0 = parallel. Points may lie on
 * different slices. Source: Berger 1993. Refuses points in one place.
 */
export function femoralRotation(r: StackReading, medial: MedialEnd): Outcome<number> {
  const axis = combine(r.at(medial), r.at('ct-lateral-epicondyle'), direction);
  const component = combine(r.at('ct-femoral-posterior-medial'), r.at('ct-femoral-posterior-lateral'), direction);
  // Internal rotation turns the front towards medial, which is counter-clockwise where x is lateral and y anterior.
  return combine(component, axis, (c, a) => ok(angleFromTo(c, a)));
}
