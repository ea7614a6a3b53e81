import type { Line } from '../plane/line.ts';
import { between, dot, type FrameName, type Point, point } from '../plane/point.ts';

/**
 * The part of a closed outline that lies on one side of the middle of the knee: beyond `middle`, towards `edge`, counted along the plane.
 * Any frame; result in the same frame, empty where nothing lies there. Half-plane clipping of Sutherland and Hodgman, Commun ACM 1974; 17:32.
 */
export function clipToSide<F extends FrameName>(
  outline: readonly Point<F>[],
  [middle, edge]: readonly [Point<F>, Point<F>],
  plane: Line<F>,
): readonly Point<F>[] {
  const way = dot(between(middle, edge), plane.along) < 0 ? -1 : 1;
  const beyond = (p: Point<F>) => way * dot(between(middle, p), plane.along);
  return outline.flatMap((b, i) => {
    const a = outline[(i + outline.length - 1) % outline.length] ?? b;
    const [da, db] = [beyond(a), beyond(b)];
    if (da >= 0 !== db >= 0) {
      const t = da / (da - db);
      const crossing = point(a.frame, a.x + t * (b.x - a.x), a.y + t * (b.y - a.y));
      return db >= 0 ? [crossing, b] : [crossing];
    }
    return db >= 0 ? [b] : [];
  });
}
