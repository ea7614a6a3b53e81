import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { fitCircle } from '../plane/circle.ts';
import { type Point, point } from '../plane/point.ts';
import type { LimbFrame } from './film-to-limb.ts';
import type { PlacedLandmark } from './limb-film.ts';

/**
 * Centre of an outline (femoral head) and how far marking each of its points lets the centre wander: the covariance of the
 * fitted centre, as two independent shifts (its Cholesky columns) that stand for all the points (LM-5).
 * `sd` of marking one coordinate in the frame's unit, null when unknown.
 */
export function outlineCentre<F extends LimbFrame>(
  points: readonly Point<F>[],
  sd: number | null,
  named: { readonly label: string; readonly field: string },
): Outcome<PlacedLandmark<F>> {
  const fit = fitCircle(points);
  if (!fit.ok) return cannot({ ...fit.reason, message: `${named.label}: ${fit.reason.message}`, field: named.field });
  const { centre, radius, centreCovariance: v } = fit.value;
  if (sd === null) return ok({ at: centre, radius, spread: null });
  const a = Math.sqrt(v.xx);
  const b = v.xy / a;
  const c = Math.sqrt(Math.max(0, v.yy - b * b));
  return ok({
    at: centre,
    radius,
    spread: [point(centre.frame, a * sd, b * sd), point(centre.frame, 0, c * sd)],
  });
}
