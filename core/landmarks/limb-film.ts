import { type Calibration, type EarnedScale, hasMillimetres } from '../calibration/calibration.ts';
import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import { type Point, point } from '../plane/point.ts';
import { axialFrame, coronalFrame, type FilmToLimb, type LimbFrame, sagittalFrame, toLimb } from './film-to-limb.ts';
import type { EvidenceFilm } from './knee-evidence.ts';
import { type LandmarkId, landmark } from './landmark-table.ts';
import type { Mark } from './mark.ts';
import { mixedMarks } from './mixed-marks.ts';
import { outlineCentre } from './outline-centre.ts';
import type { Side } from './side.ts';

/** A landmark in the limb's frame: an outline is its centre. */
export interface PlacedLandmark<F extends LimbFrame> {
  readonly at: Point<F>;
  /** Two independent shifts of one standard deviation each; null where the film has no scale to turn mm into pixels. */
  readonly spread: readonly [Point<F>, Point<F>] | null;
  /** Radius of an outline's circle, in the frame's unit. */
  readonly radius?: number;
}

/** One film seen from one limb: its marks in the limb's frame, ready to be measured. */
export interface LimbFilm<F extends LimbFrame> {
  readonly film: EvidenceFilm;
  readonly side: Side;
  readonly toLimb: FilmToLimb<F>;
  readonly placed: ReadonlyMap<LandmarkId, PlacedLandmark<F>>;
  /** Marks that cannot be used, each with its reason. */
  readonly faults: ReadonlyMap<LandmarkId, Reason>;
  readonly scale: EarnedScale | null;
  /** Millimetres per unit of the frame, which is the width of a pixel; null without a scale. */
  readonly mmPerUnit: number | null;
}

export interface LimbFilmInput {
  readonly film: EvidenceFilm;
  readonly side: Side;
  readonly marks: readonly Mark[];
  readonly calibration: Calibration | undefined;
}

/** An AP film seen from one limb. */
export const coronalFilm = (input: LimbFilmInput): Outcome<LimbFilm<'coronal'>> =>
  build(input, coronalFrame(orientation(input)));

/** A lateral film seen from one limb. */
export const sagittalFilm = (input: LimbFilmInput): Outcome<LimbFilm<'sagittal'>> =>
  build(input, sagittalFrame(orientation(input)));

/** A skyline film seen from one limb. */
export const axialFilm = (input: LimbFilmInput): Outcome<LimbFilm<'axial'>> =>
  build(input, axialFrame(orientation(input)));

const orientation = ({ film, side, calibration }: LimbFilmInput) => ({
  film: film.id,
  view: film.view,
  side,
  columnsTowards: film.columnsTowards,
  pixelAspect: calibration ? aspect(calibration) : null,
});

const aspect = (c: Calibration) => (hasMillimetres(c) ? c.mmPerPx.y / c.mmPerPx.x : c.pixelAspect);

function build<F extends LimbFrame>(input: LimbFilmInput, frame: Outcome<FilmToLimb<F>>): Outcome<LimbFilm<F>> {
  if (!frame.ok) return frame;
  const { film, side, calibration } = input;
  if (film.side !== 'both' && film.side !== side)
    return cannot({
      code: 'wrong-side',
      message: `Film ${film.id} is of the ${film.side} knee, not of the ${side} one.`,
      field: `films[${film.id}].side`,
      mend: 'Correct the side of the film, or measure on another film.',
    });
  const scale = calibration && hasMillimetres(calibration) ? calibration : null;
  const mmPerUnit = scale ? scale.mmPerPx.x : null;
  const placed = new Map<LandmarkId, PlacedLandmark<F>>();
  const faults = new Map<LandmarkId, Reason>();
  for (const mark of input.marks) {
    if (mark.film !== film.id || mark.side !== side) continue;
    const one = place(mark, frame.value, mmPerUnit);
    if (one.ok) placed.set(mark.landmark, one.value);
    else faults.set(mark.landmark, one.reason);
  }
  for (const [id, reason] of mixedMarks(frame.value.frame, placed)) faults.set(id, reason);
  return ok({ film, side, toLimb: frame.value, placed, faults, scale, mmPerUnit });
}

function place<F extends LimbFrame>(
  mark: Mark,
  t: FilmToLimb<F>,
  mmPerUnit: number | null,
): Outcome<PlacedLandmark<F>> {
  const { outline, markingSdMm, label } = landmark(mark.landmark);
  const field = `marks[${mark.landmark}, ${mark.side}, ${mark.film}].points`;
  if (!mark.points.every((p) => Number.isFinite(p.x) && Number.isFinite(p.y)))
    return cannot({
      code: 'not-a-finite-number',
      message: `${label}: a coordinate is not a number.`,
      field,
      mend: 'Place the mark again.',
    });
  const points = mark.points.map((p) => toLimb(t, point('film', p.x, p.y)));
  const sd = mmPerUnit === null ? null : (mark.sdMm ?? markingSdMm) / mmPerUnit;
  if (outline) return outlineCentre(points, sd, { label, field });
  const only = points[0];
  if (!only || points.length !== 1)
    return cannot({
      code: 'one-point-needed',
      message: `${label} is one point; ${points.length} are given.`,
      field,
      mend: 'Place exactly one point.',
    });
  return ok({ at: only, spread: sd === null ? null : [point(t.frame, sd, 0), point(t.frame, 0, sd)] });
}
