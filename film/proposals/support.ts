import type { FilmPoint } from './grey-film.ts';

export interface Way {
  readonly x: number;
  readonly y: number;
}

export const alongWay = (p: Way, way: Way): number => p.x * way.x + p.y * way.y;

/** Unit direction; null for a way without length. */
export function unitWay({ x, y }: Way): Way | null {
  const l = Math.hypot(x, y);
  return Number.isFinite(l) && l > 0 ? { x: x / l, y: y / l } : null;
}

/** The point that reaches farthest in a direction; of equals the first. Null of none. */
export function farthest(points: readonly FilmPoint[], way: Way): FilmPoint | null {
  let best: FilmPoint | null = null;
  for (const p of points) if (!best || alongWay(p, way) > alongWay(best, way)) best = p;
  return best;
}

/** Convex hull, each point once, turning one way round (Andrew 1979). */
export function hull(points: readonly FilmPoint[]): FilmPoint[] {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const chain = (list: readonly FilmPoint[]): FilmPoint[] => {
    const out: FilmPoint[] = [];
    for (const p of list) {
      for (let n = out.length; n >= 2; n--) {
        const [a, b] = [out[n - 2], out[n - 1]];
        if (!a || !b || (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > 0) break;
        out.pop();
      }
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}

/** The longest side of the hull that faces a direction, within 35 degrees: where a straight edge laid on from there touches twice. */
export function restingEdge(points: readonly FilmPoint[], facing: Way): readonly [FilmPoint, FilmPoint] | null {
  const corners = hull(points);
  const middle = corners.reduce((s, p) => ({ x: s.x + p.x / corners.length, y: s.y + p.y / corners.length }), {
    x: 0,
    y: 0,
  });
  let best: { length: number; pair: readonly [FilmPoint, FilmPoint] } | null = null;
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length] ?? a;
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    if (!(length > 0)) return;
    const normal = { x: (b.y - a.y) / length, y: -(b.x - a.x) / length };
    const out = alongWay({ x: a.x - middle.x, y: a.y - middle.y }, normal) < 0 ? -1 : 1;
    if (out * alongWay(normal, facing) < 0.82) return;
    if (!best || length > best.length) best = { length, pair: [a, b] };
  });
  return (best as { pair: readonly [FilmPoint, FilmPoint] } | null)?.pair ?? null;
}

/** The outermost points of an outline to both sides, left then right along `right`, and how far apart they are. */
export function span(
  outline: readonly FilmPoint[],
  right: Way,
): { edges: readonly [FilmPoint, FilmPoint]; widthPx: number } | null {
  const a = farthest(outline, { x: -right.x, y: -right.y });
  const b = farthest(outline, right);
  return a && b ? { edges: [a, b], widthPx: alongWay(b, right) - alongWay(a, right) } : null;
}
