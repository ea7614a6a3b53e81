import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, direction } from './direction.ts';
import { between, cross, dot, type FrameName, type Point, plus } from './point.ts';

/** An endless line: a point on it and its direction. */
export interface Line<F extends FrameName> {
  readonly through: Point<F>;
  readonly along: Direction<F>;
}

/** Line through two points, directed from `a` to `b`; `cannot` when they lie in the same place. */
export function lineThrough<F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): Outcome<Line<F>> {
  const along = direction(a, b);
  return along.ok ? ok({ through: a, along: along.value }) : along;
}

/** Sine of the angle below which two lines count as parallel: 0.00006 degrees. */
const PARALLEL_SINE = 1e-6;

/** Where two lines cross; `cannot` when they are parallel or one and the same. */
export function intersection<F extends FrameName>(a: Line<F>, b: Line<NoInfer<F>>): Outcome<Point<F>> {
  const sine = cross(a.along, b.along);
  if (Math.abs(sine) < PARALLEL_SINE)
    return cannot({
      code: 'lines-are-parallel',
      message: 'Two lines that should cross run in parallel.',
      mend: 'Check the marks that span them.',
    });
  return ok(plus(a.through, a.along, cross(between(a.through, b.through), b.along) / sine));
}

/** Foot of the perpendicular from a point on a line. */
export const foot = <F extends FrameName>(p: Point<F>, line: Line<NoInfer<F>>): Point<F> =>
  plus(line.through, line.along, dot(between(line.through, p), line.along)) as Point<F>;

/** Perpendicular distance of a point from a line: + on the left of the line's direction in a y-up frame. */
export const signedDistance = <F extends FrameName>(p: Point<F>, line: Line<NoInfer<F>>): number =>
  cross(line.along, between(line.through, p));
