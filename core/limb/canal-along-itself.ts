import { type LimbFrame, toLimb } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { NO_SCALE } from '../landmarks/millimetres.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, normalOf } from '../plane/direction.ts';
import { between, cross, dot, midpoint, type Point, point } from '../plane/point.ts';

interface FilmPoint {
  readonly x: number;
  readonly y: number;
}

/** Walls of a canal at one level of one film, as traced: inner cortex on both sides, outer where seen; film pixels. */
export interface TracedLevel {
  readonly innerA: FilmPoint;
  readonly innerB: FilmPoint;
  readonly outerA?: FilmPoint;
  readonly outerB?: FilmPoint;
}

/** The canal of one bone traced on one film, levels from the joint outwards. */
export interface TracedBone {
  readonly bone: 'femur' | 'tibia';
  readonly film: string;
  readonly levels: readonly TracedLevel[];
  /** Standard deviation of marking a wall, mm in the patient; absent = 1 (STM-6). */
  readonly sdMm?: number;
}

/** A canal at one level along its own axis, mm: `low` = medial or posterior, `high` = lateral or anterior. */
export interface OwnSection {
  readonly zMm: number;
  readonly lowMm: number;
  readonly highMm: number;
  readonly outerLowMm: number | null;
  readonly outerHighMm: number | null;
}

/** A canal laid along its own axis; `zMm` counts outwards from the first level. */
export interface OwnCanal {
  readonly bone: TracedBone['bone'];
  readonly film: string;
  readonly sections: readonly OwnSection[];
  readonly wallSdMm: number;
  readonly scaleRelativeSd: number;
  /** Height of a point or a line of the film along the axis, mm; null where not marked. */
  readonly levelOfLine: (marks: readonly [LandmarkId, LandmarkId]) => number | null;
  readonly levelOf: (mark: LandmarkId) => number | null;
}

/** Standard deviation of marking one wall where the trace states none, mm (STM-6; assumption). */
const WALL_SD_MM = 1;

/**
 * Lays a traced canal along its own axis, the line of least squares through the middles of its levels, so that widths, cortices and
 * bow need neither joint line nor shaft marks. Refuses a film without scale, fewer than three levels, coordinates that are no numbers and
 * levels that do not follow each other along the bone.
 */
export function canalAlongItself<F extends LimbFrame>(trace: TracedBone, film: LimbFilm<F>): Outcome<OwnCanal> {
  const mm = film.mmPerUnit;
  if (mm === null) return cannot(NO_SCALE);
  const fault = (code: string, what: string, mend: string) =>
    cannot({ code, message: `Canal of the ${trace.bone} on film ${trace.film}: ${what}`, field: 'canals', mend });
  if (trace.levels.length < 3)
    return fault('canal-levels', 'fewer than three levels are traced.', 'Trace both walls at more levels.');
  const place = (p: FilmPoint): Point<F> => toLimb(film.toLimb, point('film', p.x, p.y));
  const middles = trace.levels.map((l) => midpoint(place(l.innerA), place(l.innerB)));
  if (!middles.every((p) => Number.isFinite(p.x) && Number.isFinite(p.y)))
    return fault('not-a-finite-number', 'a coordinate is not a number.', 'Trace the canal again.');
  const axis = axisThrough(middles);
  const first = middles[0];
  if (!axis || !first) return fault('canal-order', 'its levels lie in one place.', 'Trace from the joint outwards.');
  // Facing proximally, lateral (or anterior) lies to the right, whichever way the film lies.
  const turn = trace.bone === 'femur' ? -1 : 1;
  const left = normalOf(axis);
  const across = { ...left, x: turn * left.x, y: turn * left.y };
  const along = (p: Point<F>) => dot(between(first, p), axis as Point<F>) * mm;
  const off = (p: Point<F>) => dot(between(first, p), across as Point<F>) * mm;
  const sections = trace.levels.map((l) => sectionOf(l, { place, along, off }));
  if (sections.some((s, i) => i > 0 && !(s.zMm > (sections[i - 1]?.zMm ?? 0))))
    return fault(
      'canal-order',
      'its levels do not follow each other along the bone.',
      'Trace from the joint outwards.',
    );
  const on = (id: LandmarkId) => (film.faults.has(id) ? null : (film.placed.get(id)?.at ?? null));
  return ok({
    bone: trace.bone,
    film: trace.film,
    sections,
    wallSdMm: trace.sdMm ?? WALL_SD_MM,
    scaleRelativeSd: film.scale?.relativeSd ?? 0,
    levelOf: (id) => {
      const p = on(id);
      return p && along(p);
    },
    levelOfLine: ([a, b]) => {
      const [p, q] = [on(a), on(b)];
      return p && q && crossingAt({ first, axis }, p, q, along);
    },
  });
}

interface Laid<F extends LimbFrame> {
  readonly place: (p: FilmPoint) => Point<F>;
  readonly along: (p: Point<F>) => number;
  readonly off: (p: Point<F>) => number;
}

function sectionOf<F extends LimbFrame>(l: TracedLevel, { place, along, off }: Laid<F>): OwnSection {
  const [a, b] = [place(l.innerA), place(l.innerB)];
  const inner = [off(a), off(b)];
  const outer = l.outerA && l.outerB ? [off(place(l.outerA)), off(place(l.outerB))] : null;
  return {
    zMm: (along(a) + along(b)) / 2,
    lowMm: Math.min(...inner),
    highMm: Math.max(...inner),
    outerLowMm: outer && Math.min(...outer),
    outerHighMm: outer && Math.max(...outer),
  };
}

/** Direction of least squares through points, from the first towards the last; null where they lie in one place. */
function axisThrough<F extends LimbFrame>(points: readonly Point<F>[]): Direction<F> | null {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return null;
  const mean = (axis: 'x' | 'y') => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  const [mx, my] = [mean('x'), mean('y')];
  let [xx, xy, yy] = [0, 0, 0];
  for (const p of points) {
    xx += (p.x - mx) ** 2;
    xy += (p.x - mx) * (p.y - my);
    yy += (p.y - my) ** 2;
  }
  if (!(xx + yy > 1e-9)) return null;
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const d = { frame: first.frame, x: Math.cos(angle), y: Math.sin(angle) };
  return dot(between(first, last), d as Point<F>) >= 0 ? d : { ...d, x: -d.x, y: -d.y };
}

/** Where the line through two marks crosses the axis; null where they run in parallel. */
function crossingAt<F extends LimbFrame>(
  { first, axis }: { readonly first: Point<F>; readonly axis: Direction<F> },
  p: Point<F>,
  q: Point<F>,
  along: (p: Point<F>) => number,
): number | null {
  const v = between(p, q);
  const sine = cross(axis as Point<F>, v);
  if (Math.abs(sine) < 1e-6 * Math.hypot(v.x, v.y)) return null;
  const t = cross(between(first, p), v) / sine;
  return along(point(first.frame, first.x + t * axis.x, first.y + t * axis.y));
}
