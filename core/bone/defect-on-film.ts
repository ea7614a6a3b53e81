import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import { toLimb } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { type Reading, shakable } from '../landmarks/reading.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { propagatedSd } from '../measure/propagate.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Line } from '../plane/line.ts';
import { distance, type Point, point } from '../plane/point.ts';
import { clipToSide } from './clip-outline.ts';
import { type DefectSize, measureDefect } from './measure-defect.ts';

/** A resection plane found from the marks of a film. */
export interface PlaneOnFilm<F extends LimbFrame> {
  /** Seen edge-on, the bone on its left. */
  readonly plane: Line<F>;
  /** Middle of the knee on the plane, where medial and lateral part; null on a lateral film. */
  readonly middle: Point<F> | null;
  /** Outer edge of the side's surface; null = not marked. */
  readonly edge: Point<F> | null;
}

/** One way to find the plane, with the marks that it needs. */
export interface PlaneOption<F extends LimbFrame> {
  /** In words, e.g. "bone face of the tray, square to the mechanical axis". */
  readonly name: string;
  readonly inputs: readonly LandmarkId[];
  readonly find: (r: Reading<F>) => Outcome<PlaneOnFilm<F>>;
}

/** A drawn defect in millimetres of the patient, each with its spread; null = no scale, or no ends of the surface marked. */
export interface DefectOnFilm {
  readonly film: string;
  /** AP films are coronal, lateral ones sagittal. */
  readonly frame: LimbFrame;
  /** How the plane was found. */
  readonly plane: string;
  readonly depthMm: Quantity | null;
  readonly widthMm: Quantity | null;
  readonly heightMm: Quantity | null;
  readonly fromPlaneMm: Quantity | null;
  readonly unsupportedPct: Quantity | null;
}

export interface OutlineOnFilm {
  /** Film pixels. */
  readonly outline: readonly { readonly x: number; readonly y: number }[];
  /** Only the part beyond the middle of the knee, on the edge's side, counts. */
  readonly ofOneSide: boolean;
}

/** Spread of where an observer sees sound bone begin, mm: that of a bony landmark (docs/rules/landmarks.md). */
export const DEFECT_EDGE_SD_MM = 1;

/**
 * Size of a defect drawn on a film (BONE-10), mm in the patient and % of the side's surface, with spreads: the marks of the plane and the
 * scale by first-order propagation (JCGM 100:2008, 5.1.2), the drawn outline as 1 mm for each edge that enters: one for a depth,
 * two for a width, a height or a share. Lengths are null on a film without scale; the share is a ratio and stays, its spread not known.
 * Refuses what `measureDefect` refuses, and a plane whose marks span none.
 */
export function defectOnFilm<F extends LimbFrame>(
  film: LimbFilm<F>,
  option: PlaneOption<F>,
  drawn: OutlineOnFilm,
): Outcome<DefectOnFilm> {
  const outline = drawn.outline.map((p) => toLimb(film.toLimb, point('film', p.x, p.y)));
  const { reading, perturbations, unscaled, complete } = shakable(film, option.inputs);
  const sized = () => {
    const found = option.find(reading);
    return found.ok ? sizeOn(outline, found.value, drawn.ofOneSide) : found;
  };
  const size = sized();
  if (!size.ok) return size;
  const part = (of: (s: Sized) => number) => () => {
    const again = sized();
    return again.ok ? ok(of(again.value)) : again;
  };
  const length = (of: keyof DefectSize, edges: 1 | 2): Quantity | null => {
    const { mmPerUnit } = film;
    if (mmPerUnit === null) return null;
    const mm = part((s) => (s[of] ?? 0) * (reading.mmPerUnit ?? mmPerUnit));
    const marks = complete ? propagatedSd(mm, perturbations) : null;
    const sd = marks === null ? null : Math.hypot(marks, Math.sqrt(edges) * DEFECT_EDGE_SD_MM);
    return { value: (size.value[of] ?? 0) * mmPerUnit, unit: 'mm', sd };
  };
  const share = (): Quantity | null => {
    const { unsupported, surfaceLength } = size.value;
    if (unsupported === null || surfaceLength === null) return null;
    const marks = complete
      ? propagatedSd(
          part((s) => 100 * (s.unsupported ?? 0)),
          unscaled,
        )
      : null;
    const edge =
      film.mmPerUnit === null ? null : (100 * Math.SQRT2 * DEFECT_EDGE_SD_MM) / (surfaceLength * film.mmPerUnit);
    return {
      value: 100 * unsupported,
      unit: '%',
      sd: marks === null || edge === null ? null : Math.hypot(marks, edge),
    };
  };
  return ok({
    film: film.film.id,
    frame: film.toLimb.frame,
    plane: option.name,
    depthMm: length('depth', 1),
    widthMm: length('width', 2),
    heightMm: length('height', 2),
    fromPlaneMm: length('fromPlane', 1),
    unsupportedPct: share(),
  });
}

type Sized = DefectSize & { readonly surfaceLength: number | null };

function sizeOn<F extends LimbFrame>(
  outline: readonly Point<F>[],
  { plane, middle, edge }: PlaneOnFilm<F>,
  ofOneSide: boolean,
): Outcome<Sized> {
  const surface = middle && edge ? ([middle, edge] as const) : null;
  const own = ofOneSide && surface ? clipToSide(outline, surface, plane) : outline;
  const size = measureDefect({ outline: own, plane, surface });
  return size.ok ? ok({ ...size.value, surfaceLength: surface && distance(surface[0], surface[1]) }) : size;
}
