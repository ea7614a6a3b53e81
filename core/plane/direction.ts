import { toDeg } from '../measure/angle.ts';
import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import { between, cross, dot, type FrameName, length, type Point } from './point.ts';

/** A vector of length 1. */
export interface Direction<F extends FrameName> {
  readonly frame: F;
  readonly x: number;
  readonly y: number;
}

/** Two marks in one place give no line. The same reason wherever it happens. */
export const NO_LENGTH: Reason = {
  code: 'line-has-no-length',
  message: 'Two points that should span a line lie in the same place.',
  mend: 'Place the two marks apart.',
};

/** Shorter than this, in units of the frame, a line has no direction. */
const SHORTEST = 1e-9;

/** Unit vector from `a` to `b`; `cannot` when they lie in the same place. */
export function direction<F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): Outcome<Direction<F>> {
  const v = between(a, b);
  const l = length(v);
  if (!(l > SHORTEST) || !Number.isFinite(l)) return cannot(NO_LENGTH);
  return ok({ frame: a.frame, x: v.x / l, y: v.y / l });
}

/** Angle of a direction, deg in (-180, 180], 0 along x, counter-clockwise + in a y-up frame. */
export const directionDeg = (d: Direction<FrameName>): number => toDeg(Math.atan2(d.y, d.x));

/**
 * Signed angle from `a` to `b`, deg in (-180, 180], counter-clockwise + in a y-up frame.
 * `atan2(cross, dot)`: exact near 0 and near 180, where the arc cosine loses half its digits.
 */
export const angleFromTo = <F extends FrameName>(a: Direction<F>, b: Direction<NoInfer<F>>): number =>
  toDeg(Math.atan2(cross(a, b), dot(a, b)));

/** The direction turned by 90 degrees counter-clockwise. */
export const normalOf = <F extends FrameName>(d: Direction<F>): Direction<F> => ({ frame: d.frame, x: -d.y, y: d.x });
