import { type Beam, type Pixel, projected } from './beam.ts';
import { type Mesh, pointAt, pointCount } from './mesh.ts';

const along = (p: Pixel, d: Pixel): number => p.x * d.x + p.y * d.y;

/** Projects every point of a mesh. */
export const shadow = (beam: Beam, mesh: Mesh): Pixel[] =>
  Array.from({ length: pointCount(mesh) }, (_, i) => projected(beam, pointAt(mesh, i)));

/** Unit direction on the film from one pixel to another. */
export function direction(from: Pixel, to: Pixel): Pixel {
  const l = Math.hypot(to.x - from.x, to.y - from.y);
  return { x: (to.x - from.x) / l, y: (to.y - from.y) / l };
}

/** The pixel of a shadow that reaches farthest in a direction. */
export function extreme(points: readonly Pixel[], towards: Pixel, among: (p: Pixel) => boolean = () => true): Pixel {
  let best: Pixel | null = null;
  for (const p of points) if (among(p) && (best === null || along(p, towards) > along(best, towards))) best = p;
  if (!best) throw new Error('no point of the shadow passes');
  return best;
}

/** Where the outline of a closed mesh's shadow meets a line: its two outermost crossings, first against `d`, then along it. */
export const crossings = (beam: Beam, mesh: Mesh, origin: Pixel, d: Pixel): readonly [Pixel, Pixel] | null =>
  crossingsOfShadow({ points: shadow(beam, mesh), triangles: mesh.triangles }, origin, d);

/** The same for a shadow that is known already, as where one mesh is crossed at many levels. */
export function crossingsOfShadow(
  { points, triangles: t }: { readonly points: readonly Pixel[]; readonly triangles: Mesh['triangles'] },
  origin: Pixel,
  d: Pixel,
): readonly [Pixel, Pixel] | null {
  const n = { x: -d.y, y: d.x };
  const off = points.map((p) => (p.x - origin.x) * n.x + (p.y - origin.y) * n.y);
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < t.length; k++) {
    const i = t[k]!;
    const j = t[k % 3 === 2 ? k - 2 : k + 1]!;
    const [a, b] = [off[i]!, off[j]!];
    if (a < 0 === b < 0) continue;
    const s = a / (a - b);
    const p = {
      x: points[i]!.x + s * (points[j]!.x - points[i]!.x),
      y: points[i]!.y + s * (points[j]!.y - points[i]!.y),
    };
    const at = (p.x - origin.x) * d.x + (p.y - origin.y) * d.y;
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  if (!Number.isFinite(low)) return null;
  const place = (at: number): Pixel => ({ x: origin.x + at * d.x, y: origin.y + at * d.y });
  return [place(low), place(high)];
}

/** The line that touches two shadows from the same side; `towards` is where that side roughly lies. */
export function commonTangent(a: readonly Pixel[], b: readonly Pixel[], towards: Pixel): readonly [Pixel, Pixel] {
  let n = towards;
  let pair: readonly [Pixel, Pixel] = [extreme(a, n), extreme(b, n)];
  for (let step = 0; step < 40; step++) {
    const d = direction(pair[0], pair[1]);
    const next = along({ x: -d.y, y: d.x }, towards) > 0 ? { x: -d.y, y: d.x } : { x: d.y, y: -d.x };
    const better: readonly [Pixel, Pixel] = [extreme(a, next), extreme(b, next)];
    if (better[0] === pair[0] && better[1] === pair[1]) break;
    [n, pair] = [next, better];
  }
  return pair;
}
