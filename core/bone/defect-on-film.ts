import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import { toLimb } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { type Reading, shakable } from '../landmarks/reading.ts';
import { cannot, type Outcome, ok, type Reason, type Warning } from '../measure/outcome.ts';
import type { Perturbation } from '../measure/propagate.ts';
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
 * Refuses what `measureDefect` refuses, a plane whose marks span none, and an outline of the other side. Warns where the scale is doubtful.
 */
export function defectOnFilm<F extends LimbFrame>(
  film: LimbFilm<F>,
  option: PlaneOption<F>,
  drawn: OutlineOnFilm,
): Outcome<DefectOnFilm> {
  const outline = drawn.outline.map((p) => toLimb(film.toLimb, point('film', p.x, p.y)));
  const { reading, perturbations, complete } = shakable(film, option.inputs);
  const sized = (): Outcome<InPatient> => {
    const found = option.find(reading);
    const size = found.ok ? sizeOn(outline, found.value, drawn.ofOneSide) : found;
    return size.ok ? ok(inPatient(size.value, reading.mmPerUnit)) : size;
  };
  const size = sized();
  if (!size.ok) return size;
  const moved = complete ? movedBy(sized, perturbations) : null;
  const quantity = (of: keyof InPatient, unit: 'mm' | '%', edges: 1 | 2): Quantity | null => {
    const { [of]: value, mmOfOnePct } = size.value;
    if (value === null) return null;
    const edgeSd = unit === 'mm' ? DEFECT_EDGE_SD_MM : mmOfOnePct === null ? null : DEFECT_EDGE_SD_MM / mmOfOnePct;
    const marksSd = moved && spreadOf(moved, of);
    const sd = marksSd === null || edgeSd === null ? null : Math.hypot(marksSd, Math.sqrt(edges) * edgeSd);
    return { value, unit, sd };
  };
  const doubt = film.scale?.doubtful ? [SCALE_DOUBTFUL(film.film.id, film.scale.because)] : [];
  const whole: DefectOnFilm = {
    film: film.film.id,
    frame: film.toLimb.frame,
    plane: option.name,
    depthMm: quantity('depthMm', 'mm', 1),
    widthMm: quantity('widthMm', 'mm', 2),
    heightMm: quantity('heightMm', 'mm', 2),
    fromPlaneMm: quantity('fromPlaneMm', 'mm', 1),
    unsupportedPct: quantity('unsupportedPct', '%', 2),
  };
  return ok(whole, doubt);
}

const SCALE_DOUBTFUL = (film: string, message: string): Warning => ({
  code: 'scale-doubtful',
  message,
  field: `films[${film}].scale`,
});

/** The size in the patient; null = no scale, or no ends of the surface marked. */
interface InPatient {
  readonly depthMm: number | null;
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly fromPlaneMm: number | null;
  readonly unsupportedPct: number | null;
  /** Length of one hundredth of the side's surface. */
  readonly mmOfOnePct: number | null;
}

function inPatient(size: Sized, mmPerUnit: number | null): InPatient {
  const mm = (length: number | null) => (length === null || mmPerUnit === null ? null : length * mmPerUnit);
  return {
    depthMm: mm(size.depth),
    widthMm: mm(size.width),
    heightMm: mm(size.height),
    fromPlaneMm: mm(size.fromPlane),
    unsupportedPct: size.unsupported === null ? null : 100 * size.unsupported,
    mmOfOnePct: mm(size.surfaceLength && size.surfaceLength / 100),
  };
}

type Pairs = readonly (readonly [above: InPatient, below: InPatient])[];

/** The size with each input one standard deviation up and down, all inputs back where they were; null where one gives none. */
function movedBy(sized: () => Outcome<InPatient>, inputs: readonly Perturbation[]): Pairs | null {
  const pairs: [InPatient, InPatient][] = [];
  for (const input of inputs) {
    input.move(1);
    const above = sized();
    input.move(-1);
    const below = sized();
    input.move(0);
    if (!above.ok || !below.ok) return null;
    pairs.push([above.value, below.value]);
  }
  return pairs;
}

/** Half differences in quadrature: `propagatedSd` for several results of the same inputs at once. */
const spreadOf = (pairs: Pairs, of: keyof InPatient): number =>
  Math.hypot(...pairs.map(([above, below]) => ((above[of] ?? 0) - (below[of] ?? 0)) / 2));

const OTHER_SIDE: Reason = {
  code: 'drawn-on-the-other-side',
  message: 'The outline lies wholly on the other side of the middle of the knee than the side that it is said to show.',
  field: 'outline',
  mend: 'Correct the side of the drawing, or the side and orientation of the film.',
};

type Sized = DefectSize & { readonly surfaceLength: number | null };

function sizeOn<F extends LimbFrame>(
  outline: readonly Point<F>[],
  { plane, middle, edge }: PlaneOnFilm<F>,
  ofOneSide: boolean,
): Outcome<Sized> {
  const surface = middle && edge ? ([middle, edge] as const) : null;
  const onSide = surface ? clipToSide(outline, surface, plane) : outline;
  if (onSide.length === 0) return cannot(OTHER_SIDE);
  const own = ofOneSide ? onSide : outline;
  const size = measureDefect({ outline: own, plane, surface });
  return size.ok ? ok({ ...size.value, surfaceLength: surface && distance(surface[0], surface[1]) }) : size;
}
