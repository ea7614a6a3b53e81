import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type FrameName, type Point, point } from '../plane/point.ts';

/**
 * Centre of the area within an outline: the geometric centre of the plateau (ROT-4). The points are joined in the order of
 * their direction from their mean, so that they may be marked in any order; the outline must bulge round that mean, as a
 * plateau does. Points in one frame, three or more; result in the same frame. Refuses fewer, and points without an area.
 */
export function areaCentre<F extends FrameName>(points: readonly Point<F>[]): Outcome<Point<F>> {
  const [first] = points;
  if (!first || points.length < 3)
    return cannot({
      code: 'too-few-points',
      message: `An outline needs three points or more; ${points.length} given.`,
      mend: 'Mark more points round the outline.',
    });
  const mx = points.reduce((s, p) => s + p.x, 0) / points.length;
  const my = points.reduce((s, p) => s + p.y, 0) / points.length;
  const ring = points
    .map((p) => ({ x: p.x - mx, y: p.y - my }))
    .sort((a, b) => Math.atan2(a.y, a.x) - Math.atan2(b.y, b.x) || a.x - b.x || a.y - b.y);
  let [area, cx, cy] = [0, 0, 0];
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length] ?? a;
    const twice = a.x * b.y - b.x * a.y;
    area += twice / 2;
    cx += ((a.x + b.x) * twice) / 6;
    cy += ((a.y + b.y) * twice) / 6;
  }
  if (!(area > 1e-9) || !Number.isFinite(cx + cy))
    return cannot({
      code: 'outline-without-area',
      message: 'The points of the outline lie on a line: they enclose no area.',
      mend: 'Spread the points round the outline.',
    });
  return ok(point(first.frame, mx + cx / area, my + cy / area));
}
