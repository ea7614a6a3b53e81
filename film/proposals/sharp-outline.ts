import { point } from '@gapline/core/plane/point.ts';
import { acrossProfile, crests, slopes } from './across-profile.ts';
import { trueEdge } from './blurred-edge.ts';
import { type FilmPoint, type GreyFilm, onFilm } from './grey-film.ts';
import { fromReduced } from './reduced.ts';

/** An outline at full resolution. */
export interface SharpOutline {
  /** In order, clockwise, sub-pixel. */
  readonly points: readonly FilmPoint[];
  /** Share of the outline on which an edge was found, 0 to 1. */
  readonly found: number;
  /** Median height of the edge as a share of the film's range of grey. */
  readonly climb: number;
}

/** Places to either side over which the direction of the outline is taken, and where the sides of the edge are read, pixels. */
const SMOOTH = 3;
const PLATEAU_PX = 3;

/**
 * Follows the outline of a piece found on a smaller film at full resolution: at every place the steepest climb from outside to
 * inside along the normal, moved to where the blurred edge truly lies.
 */
export function sharpOutline(
  film: GreyFilm,
  rough: readonly { readonly x: number; readonly y: number }[],
  { factor, range }: { factor: number; range: number },
): SharpOutline {
  const n = rough.length;
  const at = (i: number) => rough[((i % n) + n) % n] ?? { x: 0, y: 0 };
  const mean = (i: number, from: number, to: number) => {
    let [x, y] = [0, 0];
    for (let k = from; k <= to; k++) [x, y] = [x + at(i + k).x, y + at(i + k).y];
    return { x: x / (to - from + 1), y: y / (to - from + 1) };
  };
  const points: FilmPoint[] = [];
  const climbs: number[] = [];
  for (let i = 0; i < n; i++) {
    const [a, b] = [mean(i, -SMOOTH, -1), mean(i, 1, SMOOTH)];
    const l = Math.hypot(b.x - a.x, b.y - a.y);
    if (!(l > 0)) continue;
    // Clockwise on the film (y down) the inside lies to the right of the way.
    const inwards = { x: -(b.y - a.y) / l, y: (b.x - a.x) / l };
    const place = mean(i, -1, 1);
    const edge = climbInwards(
      film,
      { x: fromReduced(place.x, factor), y: fromReduced(place.y, factor) },
      { inwards, factor, range },
    );
    if (!edge) continue;
    points.push(edge.at);
    climbs.push(edge.climb);
  }
  climbs.sort((a, b) => a - b);
  return { points, found: n > 0 ? points.length / n : 0, climb: climbs[climbs.length >> 1] ?? 0 };
}

function climbInwards(
  film: GreyFilm,
  from: { x: number; y: number },
  { inwards, factor, range }: { inwards: { x: number; y: number }; factor: number; range: number },
): { at: FilmPoint; climb: number } | null {
  const step = 0.5;
  const reach = 1.5 * factor + PLATEAU_PX;
  const line = { x: from.x, y: from.y, dx: inwards.x, dy: inwards.y, from: -reach, to: reach, step, halfWidth: 1 };
  const profile = acrossProfile(film, line);
  const slope = slopes(profile, 1 / step);
  let best: { at: number; worth: number } | null = null;
  for (const c of crests(slope)) {
    const shift = -reach + c.at * step;
    if (Math.abs(shift) > 1.5 * factor) continue;
    const worth = c.height * (1 - 0.4 * Math.abs(shift / (1.5 * factor)));
    if (!best || worth > best.worth) best = { at: c.at, worth };
  }
  if (!best) return null;
  const plateau = PLATEAU_PX / step;
  const shift = -reach + step * trueEdge(profile, best.at, { plateau, range });
  const at = point('film', from.x + shift * inwards.x, from.y + shift * inwards.y);
  const [dark, bright] = [
    profile[Math.max(0, Math.round(best.at - plateau))] ?? 0,
    profile[Math.min(profile.length - 1, Math.round(best.at + plateau))] ?? 0,
  ];
  return onFilm(film, at) ? { at, climb: (bright - dark) / range } : null;
}
