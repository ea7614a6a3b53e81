import { point } from '@gapline/core/plane/point.ts';
import { acrossProfile, crests, slopes } from './across-profile.ts';
import { trueEdge } from './blurred-edge.ts';
import { type FilmPoint, type GreyFilm, onFilm } from './grey-film.ts';

/** One place where a ray out of a circle's middle meets an edge from bright to dark. */
export interface RimPoint {
  readonly at: FilmPoint;
  /** Fall of grey a pixel. */
  readonly fall: number;
}

export interface RimSearch {
  readonly centre: FilmPoint;
  readonly radius: number;
  readonly rays: number;
  /** How far within and beyond the circle is looked, pixels. */
  readonly reachPx: number;
  /** Blur before the slope is taken, pixels. */
  readonly sigmaPx: number;
  /** The film's range of grey. */
  readonly range: number;
}

/** Where the two sides of an edge are read, pixels away from it. */
const PLATEAU_PX = 3;

/**
 * The edge from bright inside to dark outside on rays from the middle, one a ray: the steepest fall, where falls are
 * weighed down towards the ends of the reach. A ray without a fall, or whose edge lies off the film, gives none.
 */
export function rimPoints(film: GreyFilm, s: RimSearch): RimPoint[] {
  const step = Math.min(1, s.sigmaPx / 1.5);
  const halfWidth = Math.min(8, Math.max(0, Math.round(s.radius / 20)));
  const out: RimPoint[] = [];
  for (let k = 0; k < s.rays; k++) {
    const a = (2 * Math.PI * k) / s.rays;
    const [dx, dy] = [Math.cos(a), Math.sin(a)];
    const from = Math.max(0, s.radius - s.reachPx);
    const to = s.radius + s.reachPx;
    const profile = acrossProfile(film, { x: s.centre.x, y: s.centre.y, dx, dy, from, to, step, halfWidth });
    const falls = slopes(profile, s.sigmaPx / step).map((v) => -v / step);
    const weight = (at: number) => 1 - 0.5 * Math.abs((from + at * step - s.radius) / s.reachPx);
    let best: { at: number; fall: number; worth: number } | null = null;
    for (const c of crests(falls)) {
      const worth = c.height * weight(c.at);
      if (!best || worth > best.worth) best = { at: c.at, fall: c.height, worth };
    }
    if (!best) continue;
    // Read inwards the edge climbs from dark to bright.
    const last = profile.length - 1;
    const inwards = trueEdge(profile.toReversed(), last - best.at, { plateau: PLATEAU_PX / step, range: s.range });
    const r = from + (last - inwards) * step;
    const at = point('film', s.centre.x + r * dx, s.centre.y + r * dy);
    if (onFilm(film, at)) out.push({ at, fall: best.fall });
  }
  return out;
}
