import { type FittedCircle, fitCircle } from '@gapline/core/plane/circle.ts';
import type { FilmPoint } from './grey-film.ts';

/** A circle through an outline, with the points of it that lie on the circle. */
export interface OutlineCircle extends FittedCircle<'film'> {
  readonly kept: readonly FilmPoint[];
}

const ROUNDS = 12;

/**
 * Circle through an outline of which a part is something else: points farther than `tolerancePx` from the circle are
 * left out and the rest is fitted again, until nothing changes. `start` says which circle is meant; the tolerance is first
 * taken three times as wide. Null when fewer than six points stay.
 */
export function robustCircle(
  points: readonly FilmPoint[],
  start: { readonly centre: FilmPoint; readonly radius: number },
  tolerancePx: number,
): OutlineCircle | null {
  let circle = start;
  let last: OutlineCircle | null = null;
  for (let round = 0; round < ROUNDS; round++) {
    const within = tolerancePx * Math.max(1, 3 - round);
    const off = (p: FilmPoint) => Math.abs(Math.hypot(p.x - circle.centre.x, p.y - circle.centre.y) - circle.radius);
    const kept = points.filter((p) => off(p) <= within);
    if (kept.length < 6) return null;
    const fit = fitCircle(kept);
    if (!fit.ok) return null;
    const still = last !== null && within === tolerancePx && last.kept.length === kept.length;
    last = { ...fit.value, kept };
    circle = fit.value;
    if (still) break;
  }
  return last;
}

/** Share of the whole turn, 0 to 1, that points about a centre cover, counted in `sectors` equal sectors. */
export function turnCovered(points: readonly FilmPoint[], centre: FilmPoint, sectors: number): number {
  const met = new Set(
    points.map((p) => {
      const turn = Math.atan2(p.y - centre.y, p.x - centre.x) / (2 * Math.PI) + 0.5;
      return Math.min(sectors - 1, Math.floor(turn * sectors));
    }),
  );
  return met.size / sectors;
}

/** Points evenly about a circle, the way in which a circle is kept as marks. */
export const aboutCircle = (centre: FilmPoint, radius: number, count = 8): FilmPoint[] =>
  Array.from({ length: count }, (_, k) => {
    const a = (2 * Math.PI * (k + 0.25)) / count;
    return { frame: 'film', x: centre.x + radius * Math.cos(a), y: centre.y + radius * Math.sin(a) };
  });
