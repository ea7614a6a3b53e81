import { point } from '@gapline/core/plane/point.ts';
import { median } from './across-profile.ts';
import type { FilmPoint } from './grey-film.ts';
import { type Ground, percent, ramp } from './proposal.ts';
import { alongWay, farthest, span, unitWay, type Way } from './support.ts';

/** What is read off the outline of a tray, film pixels. */
export interface TrayShape {
  /** Ends of the upper face, left then right on the film. */
  readonly line: readonly [FilmPoint, FilmPoint];
  readonly widthPx: number;
  /** Tip of the keel or stem, and the middle of the stem at two heights, upper first; null without one. */
  readonly stem: {
    readonly tip: FilmPoint;
    readonly axis: readonly [FilmPoint, FilmPoint];
    readonly widthPx: number;
  } | null;
}

/** A tray's shape with what speaks for it. */
export interface FoundTray {
  readonly shape: TrayShape;
  readonly grounds: readonly Ground[];
}

/** The corner of a tray is sought so much more outwards than upwards, and its height within this share of the span of the outline. */
const OUT = 2.5;
const AT_THE_END = 0.045;

/**
 * The upper corner of a tray on one side: its outermost place, at the height of the upper face there. A tilted tray shows the rim of
 * its far side over the middle, and only at the very ends the height that is meant.
 */
function cornerOf(outline: readonly FilmPoint[], out: Way, up: Way): FilmPoint | null {
  const corner = farthest(outline, { x: up.x + OUT * out.x, y: up.y + OUT * out.y });
  const opposite = farthest(outline, { x: -out.x, y: -out.y });
  if (!corner || !opposite) return null;
  const reach = AT_THE_END * (alongWay(corner, out) - alongWay(opposite, out));
  const top =
    farthest(
      outline.filter((p) => alongWay(corner, out) - alongWay(p, out) < reach),
      up,
    ) ?? corner;
  const raised = alongWay(top, up) - alongWay(corner, up);
  return point('film', corner.x + raised * up.x, corner.y + raised * up.y);
}

/** Reads a tray off its outline (PRO-5). `distally` = unit direction to the foot. Null where the outline has no two corners. */
export function trayShape(outline: readonly FilmPoint[], distally: Way): FoundTray | null {
  let right: Way = { x: distally.y, y: -distally.x };
  let line: readonly [FilmPoint, FilmPoint] | null = null;
  // The corners are what reaches farthest up and out; the first look is along the film, the next along the tray itself.
  for (let look = 0; look < 4; look++) {
    const up = { x: right.y, y: -right.x };
    const a = cornerOf(outline, { x: -right.x, y: -right.y }, up);
    const b = cornerOf(outline, right, up);
    const way = a && b ? unitWay({ x: b.x - a.x, y: b.y - a.y }) : null;
    if (!a || !b || !way) return null;
    [line, right] = [[a, b], way];
  }
  if (!line) return null;
  const down = { x: -right.y, y: right.x };
  const level = alongWay(line[0], down);
  const [from, to] = [alongWay(line[0], right), alongWay(line[1], right)];
  const widthPx = to - from;
  const face = outline.filter((p) => {
    const t = (alongWay(p, right) - from) / widthPx;
    return t > 0.08 && t < 0.92 && Math.abs(alongWay(p, down) - level) < 0.06 * widthPx;
  });
  const upper = face.filter((p) => alongWay(p, down) - level < 0.035 * widthPx);
  const rough = median(upper.map((p) => Math.abs(alongWay(p, down) - level))) / widthPx;
  const covered = new Set(upper.map((p) => Math.floor(20 * ((alongWay(p, right) - from) / widthPx)))).size / 17;
  return {
    shape: { line, widthPx, stem: stemOf(outline, { line, right, down, widthPx }) },
    grounds: [
      {
        says: `the upper face is seen over ${percent(Math.min(1, covered))} of its width`,
        holds: ramp(covered, 0.5, 0.85),
      },
      { says: `the upper face is straight to ${percent(rough)} of its width`, holds: ramp(rough, 0.035, 0.02) },
    ],
  };
}

/** Share of the depth at which the stem's middle is read. */
const STEM_AT = [0.55, 0.85] as const;

function stemOf(
  outline: readonly FilmPoint[],
  { line, right, down, widthPx }: { line: readonly [FilmPoint, FilmPoint]; right: Way; down: Way; widthPx: number },
): TrayShape['stem'] {
  const tip = farthest(outline, down);
  const level = alongWay(line[0], down);
  const depth = tip ? alongWay(tip, down) - level : 0;
  if (!tip || depth < 0.2 * widthPx) return null;
  const at = STEM_AT.map((share) => {
    const band = outline.filter((p) => Math.abs(alongWay(p, down) - level - share * depth) < 0.04 * depth);
    const sides = span(band, right);
    if (!sides) return null;
    const [t, d] = [(alongWay(sides.edges[0], right) + alongWay(sides.edges[1], right)) / 2, level + share * depth];
    return { middle: point('film', t * right.x + d * down.x, t * right.y + d * down.y), widthPx: sides.widthPx };
  });
  const [upper, lower] = at;
  if (!upper || !lower || lower.widthPx > 0.45 * widthPx) return null;
  return { tip, axis: [upper.middle, lower.middle], widthPx: lower.widthPx };
}
