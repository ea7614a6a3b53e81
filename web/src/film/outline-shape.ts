import type { Place } from './viewport.ts';

/** A closed outline needs this many points before it encloses anything. */
export const LEAST_CORNERS = 3;

/**
 * A hand's line with the fewest points that keep it within `tolerance` of what was drawn (the line simplification of
 * Douglas and Peucker 1973). Ends stay. Same unit in, same unit out.
 */
export function simplified(line: readonly Place[], tolerance: number): readonly Place[] {
  const [first] = line;
  const last = line.at(-1);
  if (!first || !last || line.length < 3) return line;
  let farthest = 0;
  let at = 0;
  line.forEach((p, i) => {
    const off = offLine(p, first, last);
    if (off > farthest) [farthest, at] = [off, i];
  });
  if (farthest <= tolerance) return [first, last];
  return [...simplified(line.slice(0, at + 1), tolerance).slice(0, -1), ...simplified(line.slice(at), tolerance)];
}

/** From a point to the segment between two others. */
function offLine(p: Place, a: Place, b: Place): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.min(Math.max(((p.x - a.x) * dx + (p.y - a.y) * dy) / long, 0), 1);
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/** Where two segments cross, each end excluded; null where they do not. */
function crossing([a, b]: readonly [Place, Place], [c, d]: readonly [Place, Place]): Place | null {
  const [rx, ry, sx, sy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const across = rx * sy - ry * sx;
  if (across === 0) return null;
  const t = ((c.x - a.x) * sy - (c.y - a.y) * sx) / across;
  const u = ((c.x - a.x) * ry - (c.y - a.y) * rx) / across;
  return t > 0 && t < 1 && u > 0 && u < 1 ? { x: a.x + t * rx, y: a.y + t * ry } : null;
}

/** The loop in a freehand line: a hand that runs past its own beginning leaves two loose ends, which are cut off. */
export function loopIn(line: readonly Place[]): readonly Place[] {
  for (let span = line.length - 2; span >= 2; span--)
    for (let i = 0; i + span + 1 < line.length; i++) {
      const j = i + span;
      const [a, b, c, d] = [line[i], line[i + 1], line[j], line[j + 1]];
      const at = a && b && c && d && crossing([a, b], [c, d]);
      if (at) return [at, ...line.slice(i + 1, j + 1)];
    }
  return line;
}

/** Whether a closed outline crosses itself. */
export function crossesItself(outline: readonly Place[]): boolean {
  const sides = outline.map((p, i) => [p, outline[(i + 1) % outline.length] ?? p] as const);
  return sides.some((one, i) => sides.slice(i + 2).some((other) => crossing(one, other) !== null));
}

/** Whether a closed outline encloses anything at all. */
export function enclosesNothing(outline: readonly Place[]): boolean {
  const twice = outline.reduce((sum, p, i) => {
    const q = outline[(i + 1) % outline.length] ?? p;
    return sum + p.x * q.y - q.x * p.y;
  }, 0);
  return outline.length < LEAST_CORNERS || twice === 0;
}
