import { LANDMARKS, type Landmark, type LandmarkId, landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { otherSide, type Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import type { Place } from '../film/viewport.ts';

/** An outline needs this many points before a circle goes through them. */
export const LEAST_OUTLINE = 3;

export const markOn = (file: CaseFile, name: Pick<Mark, 'landmark' | 'side' | 'film'>): Mark | undefined =>
  file.marks.find((m) => m.landmark === name.landmark && m.side === name.side && m.film === name.film);

/** Sides that can be marked on a film: the side of the case first. */
export const sidesOn = (film: CaseFilm, caseSide: Side): readonly Side[] =>
  film.side === 'both' ? [caseSide, otherSide(caseSide)] : [film.side];

/** What can be marked on a film, in the order in which it is asked for. */
export const landmarksOf = (film: CaseFilm): readonly (Landmark & { readonly id: LandmarkId })[] =>
  LANDMARKS.filter((l: Landmark) => l.views.includes(film.view));

/** Rounded to a hundredth of a pixel: finer than any hand, short in the file. */
const round = (value: number): number => Math.round(value * 100) / 100;
export const onFilm = (place: Place): Place => ({ x: round(place.x), y: round(place.y) });

/** A press at `at`: a new mark, or one more point on an outline. */
export function placeEdit(
  file: CaseFile,
  name: Pick<Mark, 'landmark' | 'side' | 'film'>,
  at: Place,
  how: 'by-hand' | 'proposed-and-accepted' = 'by-hand',
): Edit {
  const there = markOn(file, name);
  const goesOn = landmark(name.landmark).outline ? there : undefined;
  const points = goesOn ? [...goesOn.points, onFilm(at)] : [onFilm(at)];
  // An outline is by hand as soon as one of its points is.
  return {
    kind: 'put-mark',
    mark: { ...name, ...spreadOf(there), points, how: goesOn?.how === 'by-hand' ? 'by-hand' : how },
  };
}

/** One point of a mark, moved. */
export function moveEdit(mark: Mark, index: number, to: Place): Edit {
  const points = mark.points.map((p, i) => (i === index ? onFilm(to) : p));
  const { landmark: id, side, film } = mark;
  return {
    kind: 'put-mark',
    mark: { landmark: id, side, film, ...sliceOf(mark), ...spreadOf(mark), points, how: 'by-hand' },
  };
}

/** One point of an outline taken away; the whole mark with its last point. */
export function removeEdit(mark: Mark, index: number): Edit {
  const points = mark.points.filter((_, i) => i !== index);
  if (points.length > 0) return { kind: 'put-mark', mark: { ...mark, points } };
  return { kind: 'remove-mark', landmark: mark.landmark, side: mark.side, film: mark.film };
}

const sliceOf = ({ slice }: Mark): { slice?: number } => (slice === undefined ? {} : { slice });

const spreadOf = (mark: Mark | undefined): { sdMm?: number } => (mark?.sdMm === undefined ? {} : { sdMm: mark.sdMm });

/** Landmarks that are only wanted while the other one cannot be marked. */
const ONLY_WITHOUT: Readonly<Partial<Record<LandmarkId, LandmarkId>>> = {
  'medial-epicondyle-sulcus': 'medial-epicondyle',
  'tibial-spines': 'tray-medial-edge',
  'medial-plateau': 'tray-medial-edge',
  'lateral-plateau': 'tray-lateral-edge',
  'ct-medial-epicondyle-peak': 'ct-medial-epicondyle-sulcus',
};

/** Whether a landmark is of use on this film as things stand; others can still be placed from the whole list. */
export function isAskedFor(file: CaseFile, name: Pick<Mark, 'landmark' | 'side' | 'film'>): boolean {
  const instead = ONLY_WITHOUT[name.landmark];
  return instead === undefined || !isMarked(file, { ...name, landmark: instead });
}

/** Marked well enough to be used: an outline with three points or more. */
export function isMarked(file: CaseFile, name: Pick<Mark, 'landmark' | 'side' | 'film'>): boolean {
  const points = markOn(file, name)?.points.length ?? 0;
  return points >= (landmark(name.landmark).outline ? LEAST_OUTLINE : 1);
}

/** Measurements that wait for this landmark, by their labels. */
export const unlockedBy = (plan: Plan, id: LandmarkId, side: Side): readonly string[] => [
  ...new Set(plan.measurements.filter((m) => m.side === side && m.missing?.includes(id)).map((m) => m.label)),
];
