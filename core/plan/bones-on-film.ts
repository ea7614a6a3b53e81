import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { type Reading, shakable } from '../landmarks/reading.ts';
import { shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, normalOf } from '../plane/direction.ts';
import { intersection, type Line, lineThrough, signedDistance } from '../plane/line.ts';
import { midpoint, type Point, plus } from '../plane/point.ts';
import { type AxisOption, femoralAxes, type TargetTilt, tibialAxes, upOf } from './target-axes.ts';

/** A bone as it lies on one film, in the frame in which its component is placed. */
export interface BoneOnFilm<F extends LimbFrame> {
  readonly film: LimbFilm<F>;
  readonly axis: Line<F>;
  /** Where the axis meets the present joint line. */
  readonly zero: Point<F>;
  /** Normal of the target joint line, proximal. */
  readonly up: Direction<F>;
  /** Along the target joint line: lateral on AP films, anterior on lateral films. */
  readonly across: Direction<F>;
  /** Millimetres per unit of the frame. */
  readonly mm: number;
}

export const usableOn = <F extends LimbFrame>(film: LimbFilm<F>, ids: readonly LandmarkId[]): boolean =>
  ids.every((id) => film.placed.has(id) && !film.faults.has(id));

/** A point of the bone's frame on the film: mm across and mm above the present joint line. */
export const spot = <F extends LimbFrame>(bone: BoneOnFilm<F>, acrossMm: number, upMm: number): Point<F> =>
  plus(plus(bone.zero, bone.across as Point<F>, acrossMm / bone.mm), bone.up as Point<F>, upMm / bone.mm);

const CONDYLES = ['medial-condyle-distal', 'lateral-condyle-distal'] as const;
const TRAY = ['tray-medial-edge', 'tray-lateral-edge'] as const;

/** The femur on an AP film, or null where its axis or its joint line is not marked or has no scale. */
export const femurOn = (film: LimbFilm<'coronal'>, tilt: TargetTilt): BoneOnFilm<'coronal'> | null =>
  coronalBoneOn(film, femoralAxes(tilt), { marks: CONDYLES, liftMm: 0 });

/** The tibia on an AP film; its present joint line is the bearing surface or, while the insert is unknown, the femoral tangent. */
export const tibiaOn = (
  film: LimbFilm<'coronal'>,
  tilt: TargetTilt,
  insertMm: number | undefined,
): BoneOnFilm<'coronal'> | null =>
  insertMm === undefined
    ? coronalBoneOn(film, tibialAxes(tilt), { marks: CONDYLES, liftMm: 0 })
    : coronalBoneOn(film, tibialAxes(tilt), { marks: TRAY, liftMm: insertMm });

interface PresentLine {
  readonly marks: readonly [LandmarkId, LandmarkId];
  readonly liftMm: number;
}

function coronalBoneOn(
  film: LimbFilm<'coronal'>,
  options: readonly AxisOption[],
  { marks, liftMm }: PresentLine,
): BoneOnFilm<'coronal'> | null {
  const mm = film.mmPerUnit;
  const option = options.find((o) => o.views.includes(film.film.view) && usableOn(film, [...marks, ...o.inputs]));
  if (mm === null || !option) return null;
  const { reading } = shakable(film, [...marks, ...option.inputs]);
  const axis = option.axis(reading);
  if (!axis.ok) return null;
  const line = lineThrough(reading.at(marks[0]), reading.at(marks[1]));
  const met = line.ok ? intersection(line.value, axis.value) : line;
  if (!met.ok) return null;
  const up = upOf(option, axis.value);
  const across: Direction<'coronal'> = { frame: 'coronal', x: up.y, y: -up.x };
  return { film, axis: axis.value, zero: plus(met.value, up as Point<'coronal'>, liftMm / mm), up, across, mm };
}

const FACE = ['femoral-component-distal-anterior', 'femoral-component-distal-posterior'] as const;
const PLATEAU = ['plateau-anterior', 'plateau-posterior'] as const;

export interface SagittalKnown {
  /** Thickness of the present component from its inner to its distal face, mm. */
  readonly femurDistalMm: number | undefined;
  readonly insertMm: number | undefined;
}

/**
 * The femur on a lateral film: axis = anterior cortex of the shaft, zero = the present distal surface below the middle of the
 * component's inner face. Null without cortex, face and thickness.
 */
export function femurOnLateral(film: LimbFilm<'sagittal'>, known: SagittalKnown): BoneOnFilm<'sagittal'> | null {
  const inputs = [...shaftMarks('femoral', 'anterior'), ...FACE];
  const { femurDistalMm } = known;
  if (femurDistalMm === undefined) return null;
  return sagittalBoneOn(film, inputs, (r) => {
    const face = lineThrough(r.at(FACE[1]), r.at(FACE[0]));
    return combine(shaftLine('femoral', 'anterior', r), face, (axis, { along }) => {
      const middle = midpoint(r.at(FACE[0]), r.at(FACE[1]));
      const thickness = femurDistalMm / (r.mmPerUnit ?? 1);
      return ok({ axis, zero: plus(middle, normalOf(along) as Point<'sagittal'>, -thickness) });
    });
  });
}

/** The tibia on a lateral film: axis = middle of the shaft, zero = the bearing surface over the middle of the tray. */
export function tibiaOnLateral(film: LimbFilm<'sagittal'>, known: SagittalKnown): BoneOnFilm<'sagittal'> | null {
  const inputs = [...shaftMarks('tibial', 'both'), ...PLATEAU];
  const { insertMm } = known;
  if (insertMm === undefined) return null;
  return sagittalBoneOn(film, inputs, (r) => {
    const tray = lineThrough(r.at(PLATEAU[1]), r.at(PLATEAU[0]));
    return combine(shaftLine('tibial', 'both', r), tray, (axis, { along }) => {
      const middle = midpoint(r.at(PLATEAU[0]), r.at(PLATEAU[1]));
      return ok({ axis, zero: plus(middle, normalOf(along) as Point<'sagittal'>, insertMm / (r.mmPerUnit ?? 1)) });
    });
  });
}

function sagittalBoneOn(
  film: LimbFilm<'sagittal'>,
  inputs: readonly LandmarkId[],
  find: (r: Reading<'sagittal'>) => Outcome<{ axis: Line<'sagittal'>; zero: Point<'sagittal'> }>,
): BoneOnFilm<'sagittal'> | null {
  const mm = film.mmPerUnit;
  if (mm === null || !usableOn(film, inputs)) return null;
  const found = find(shakable(film, inputs).reading);
  if (!found.ok) return null;
  const { axis, zero } = found.value;
  const up = axis.along;
  return { film, axis, zero, up, across: { frame: 'sagittal', x: up.y, y: -up.x }, mm };
}

/** How far a point lies behind a bone's axis on a lateral film, mm. */
export const behindAxisMm = (bone: BoneOnFilm<'sagittal'>, p: Point<'sagittal'>): number =>
  signedDistance(p, bone.axis) * bone.mm;
