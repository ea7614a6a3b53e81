import { point } from '@gapline/core/plane/point.ts';
import type { GreyFilm } from '@gapline/film/proposals/grey-film.ts';
import { snapToEdge } from '@gapline/film/proposals/snap-to-edge.ts';
import type { Level } from '../film/pyramid.ts';
import type { Place } from '../film/viewport.ts';

/** What kind of edge it is does not matter here: nothing counts as metal, and nothing is looked for to tell. */
const NO_METAL = Number.MAX_SAFE_INTEGER;

/** The edge nearest to a press within `reachPx`, film pixels, where it is sure; null = the press stands as it is. */
export function edgeNear(level: Level | undefined, at: Place, reachPx: number): Place | null {
  if (!level) return null;
  const film: GreyFilm = { pixels: level.values, rows: level.height, columns: level.width };
  const edge = snapToEdge(film, { at: point('film', at.x, at.y), reachPx: Math.max(2, reachPx), metalFrom: NO_METAL });
  return edge.ok && edge.value.confident ? edge.value.at : null;
}
