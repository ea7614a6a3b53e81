import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { angleFromTo, direction, normalOf } from '../plane/direction.ts';
import type { StackReading } from './knee-on-stack.ts';

export const TIBIAL_INPUTS: readonly LandmarkId[] = [
  'ct-tray-posterior-medial',
  'ct-tray-posterior-lateral',
  'ct-plateau-outline',
  'ct-tubercle-tip',
];

/**
 * Rotation of the tibial component (ROT-4): its front-back axis, square to the back edge of the tray, against the line from
 * the centre of the plateau to the tip of the tubercle, laid over each other in the plane of the slices. Degrees, **internal
 * negative, external +**, 0 = the component points at the tip; normal is 18 degrees internal, written -18.
 * Source: Berger & Crossett 1998 (from memory). Refuses points in one place.
 */
export function tibialRotation(r: StackReading): Outcome<number> {
  const back = combine(r.at('ct-tray-posterior-medial'), r.at('ct-tray-posterior-lateral'), direction);
  const tubercle = combine(r.at('ct-plateau-outline'), r.at('ct-tubercle-tip'), direction);
  return combine(back, tubercle, (b, t) => ok(angleFromTo(normalOf(b), t)));
}
