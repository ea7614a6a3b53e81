import { type FilmPoint, type GreyFilm, onFilm, valueAt } from './grey-film.ts';

/** Width of the bands that are compared, as a share of the radius. */
const BAND = 0.045;

/** Into how many sectors a circle is cut, and how far apart grey is read in them, pixels. */
export interface RimGrid {
  readonly sectors: number;
  readonly stepPx: number;
}

/** How many standard errors a step of grey must stand over chance to count as an edge. */
export const OVER_CHANCE = 3;

/**
 * How clearly each sector of a circle shows an edge from bright inside to dark outside, in order round the circle: the step of
 * grey at the circle, less the steps a little within and beyond it, in standard errors of its noise. Noise alone exceeds 3
 * in about one sector of a thousand; a gentle slope of grey gives nothing. Sectors off the film give 0.
 */
export function edgeSectors(
  film: GreyFilm,
  { centre, radius }: { readonly centre: FilmPoint; readonly radius: number },
  { sectors, stepPx }: RimGrid,
): number[] {
  const width = Math.max(2, BAND * radius);
  return Array.from({ length: sectors }, (_, k) => {
    const bands = [-2, -1, 1, 2].map((b) => {
      const from = radius + (b < 0 ? b * width : (b - 1) * width);
      return bandOf(film, centre, { from, to: from + width, turn: k / sectors, share: 1 / sectors, stepPx });
    });
    const [within, inside, outside, beyond] = bands;
    if (!within || !inside || !outside || !beyond) return 0;
    const beside = Math.max(0, within.mean - inside.mean, outside.mean - beyond.mean);
    return (inside.mean - outside.mean - beside) / Math.hypot(inside.error, outside.error);
  });
}

/** Edges that stand over chance, each counted up to twice as much: what a circle is worth. */
export const circleWorth = (clearness: readonly number[]): number =>
  clearness.reduce((s, z) => s + Math.min(2, Math.max(0, z / OVER_CHANCE - 0.3)), 0) / clearness.length;

/** Steps by which a circle is moved and grown in search of a better one, as shares of its radius. */
const CLIMB = [0.05, 0.025, 0.0125] as const;

/** Moves and grows a circle, one step at a time, as long as that makes it worth more; of equal steps the first. */
export function climbed(
  film: GreyFilm,
  start: { readonly centre: FilmPoint; readonly radius: number },
  grid: RimGrid,
): { readonly centre: FilmPoint; readonly radius: number } {
  let best = { ...start, worth: circleWorth(edgeSectors(film, start, grid)) };
  for (const share of CLIMB)
    for (let step = 0; step < 10; step++) {
      const before = best;
      const d = share * before.radius;
      for (const [dx, dy, dr] of MOVES) {
        const { x, y } = before.centre;
        const tried = { centre: { ...before.centre, x: x + dx * d, y: y + dy * d }, radius: before.radius + dr * d };
        const worth = circleWorth(edgeSectors(film, tried, grid));
        if (worth > best.worth + 1e-9) best = { ...tried, worth };
      }
      if (best === before) break;
    }
  return best;
}

/** Sideways, up and down, larger and smaller, and larger or smaller while one side stays where it is. */
const MOVES = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
  [1, 0, 1],
  [-1, 0, 1],
  [0, 1, 1],
  [0, -1, 1],
  [1, 0, -1],
  [-1, 0, -1],
  [0, 1, -1],
  [0, -1, -1],
] as const;

/** Mean grey and its standard error in a piece of a ring; null off the film. */
function bandOf(
  film: GreyFilm,
  centre: FilmPoint,
  { from, to, turn, share, stepPx }: { from: number; to: number; turn: number; share: number; stepPx: number },
): { mean: number; error: number } | null {
  const rings = Math.max(2, Math.round((to - from) / stepPx));
  const rays = Math.max(2, Math.round((2 * Math.PI * to * share) / stepPx));
  let [sum, squares, n] = [0, 0, 0];
  for (let i = 0; i < rings; i++)
    for (let j = 0; j < rays; j++) {
      const r = from + ((i + 0.5) / rings) * (to - from);
      const a = 2 * Math.PI * (turn + ((j + 0.5) / rays) * share);
      const [x, y] = [centre.x + r * Math.cos(a), centre.y + r * Math.sin(a)];
      if (!onFilm(film, { frame: 'film', x, y })) return null;
      const v = valueAt(film, x, y);
      sum += v;
      squares += v * v;
      n += 1;
    }
  const mean = sum / n;
  // Half a grey step: digitising alone errs by that much.
  return { mean, error: Math.sqrt((Math.max(0, squares / n - mean * mean) + 0.25) / n) };
}
