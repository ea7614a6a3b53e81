import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Circle, fitCircle } from '../plane/circle.ts';
import { type Point, point } from '../plane/point.ts';
import type { LimbFrame } from './film-to-limb.ts';
import type { PlacedLandmark } from './limb-film.ts';

/**
 * Centre of an outline (femoral head) and how far marking each of its points lets the centre wander: every point is moved
 * by its spread along both axes and the circle fitted anew, which gives the covariance of the centre; its
 * Cholesky columns are two independent shifts that stand for all the points.
 * `sd` in the frame's unit, null when unknown.
 */
export function outlineCentre<F extends LimbFrame>(
  points: readonly Point<F>[],
  sd: number | null,
  named: { readonly label: string; readonly field: string },
): Outcome<PlacedLandmark<F>> {
  const fit = fitCircle(points);
  if (!fit.ok) return cannot({ ...fit.reason, message: `${named.label}: ${fit.reason.message}`, field: named.field });
  const placed = { at: fit.value.centre, radius: fit.value.radius };
  if (sd === null) return ok({ ...placed, spread: null });
  const covariance = centreCovariance(points, fit.value, sd);
  if (!covariance)
    return cannot({
      code: 'outline-too-short',
      message: `${named.label}: the marked arc is too short for a circle.`,
      field: named.field,
      mend: 'Spread the points along more of the outline.',
    });
  const { frame } = fit.value.centre;
  const a = Math.sqrt(covariance.xx);
  const b = a > 0 ? covariance.xy / a : 0;
  return ok({
    ...placed,
    spread: [point(frame, a, b), point(frame, 0, Math.sqrt(Math.max(0, covariance.yy - b * b)))],
  });
}

function centreCovariance<F extends LimbFrame>(points: readonly Point<F>[], fit: Circle<F>, sd: number) {
  let [xx, xy, yy] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) {
    // Only the shift across the outline moves the circle to first order.
    const p = points[i] as Point<F>;
    const away = Math.hypot(p.x - fit.centre.x, p.y - fit.centre.y);
    if (!(away > 0)) return null;
    const ux = ((p.x - fit.centre.x) / away) * sd;
    const uy = ((p.y - fit.centre.y) / away) * sd;
    const out = fitCircle(points.with(i, point(p.frame, p.x + ux, p.y + uy)));
    const inward = fitCircle(points.with(i, point(p.frame, p.x - ux, p.y - uy)));
    if (!out.ok || !inward.ok) return null;
    const dx = (out.value.centre.x - inward.value.centre.x) / 2;
    const dy = (out.value.centre.y - inward.value.centre.y) / 2;
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  return { xx, xy, yy };
}
