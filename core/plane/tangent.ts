import { cannot, type Outcome } from '../measure/outcome.ts';
import type { Circle } from './circle.ts';
import { NO_LENGTH, normalOf } from './direction.ts';
import { type Line, lineThrough } from './line.ts';
import { between, type FrameName, length, plus } from './point.ts';

/**
 * Outer common tangent of two circles, directed from the first to the second, with both circles on its
 * left (`'left'`) or right. With x lateral and y proximal, the distal tangent from the medial to the lateral condyle
 * has the condyles on its left. A point is a circle of radius 0.
 * Refuses circles with one centre, and a circle that lies inside the other.
 */
export function commonTangent<F extends FrameName>(
  first: Circle<F>,
  second: Circle<NoInfer<F>>,
  circlesLie: 'left' | 'right',
): Outcome<Line<F>> {
  const v = between(first.centre, second.centre);
  const d = length(v);
  if (!(d > 1e-9)) return cannot(NO_LENGTH);
  const sine = (second.radius - first.radius) / d;
  if (Math.abs(sine) >= 1)
    return cannot({
      code: 'circle-inside-circle',
      message: 'One circle lies inside the other: they have no common tangent.',
      mend: 'Check the marks on both outlines.',
    });
  // The tangent turns away from the line of centres by the angle whose sine is (R2 - R1) / d.
  const cosine = Math.sqrt(1 - sine * sine);
  const s = circlesLie === 'left' ? -sine : sine;
  const along = {
    frame: first.centre.frame,
    x: (v.x * cosine - v.y * s) / d,
    y: (v.x * s + v.y * cosine) / d,
  };
  const away = circlesLie === 'left' ? -1 : 1;
  const touch = plus(first.centre, normalOf(along), away * first.radius);
  return lineThrough(touch, plus(touch, along));
}
