import { type Calibration, hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import { LANDMARKS, type Landmark, type LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { type FilmPixels, type FilmRegistration, registerFilms } from '@gapline/core/plane/register-films.ts';
import type { Wipe, WipeBone } from './viewing.ts';
import type { Place } from './viewport.ts';

/** Two films of one knee, one view and two dates. */
export interface Dates {
  readonly earlier: CaseFilm;
  readonly later: CaseFilm;
}

/** Every two films of a case that can be laid over one another, those farthest apart in time first. */
export function datesOf(films: readonly CaseFilm[]): readonly Dates[] {
  const dated = films.filter((f) => f.takenOn !== undefined);
  const pairs = dated.flatMap((earlier) =>
    dated.flatMap((later) =>
      earlier.view === later.view && earlier.side === later.side && (earlier.takenOn ?? '') < (later.takenOn ?? '')
        ? [{ earlier, later }]
        : [],
    ),
  );
  const span = ({ earlier, later }: Dates): number =>
    Date.parse(later.takenOn ?? '') - Date.parse(earlier.takenOn ?? '');
  return pairs.toSorted((a, b) => span(b) - span(a) || 0);
}

/** The films of a wipe, as long as the case still has them so. */
export function soundWipe(films: readonly CaseFilm[], wipe: Wipe | null): (Dates & { readonly wipe: Wipe }) | null {
  const there = wipe && datesOf(films).find((d) => d.earlier.id === wipe.earlier && d.later.id === wipe.later);
  return there ? { ...there, wipe } : null;
}

/** Points of bone that are one and the same on any two films; levels of a shaft, the notch and metal are not. */
const FIXED: Readonly<Record<WipeBone, readonly LandmarkId[]>> = {
  femur: ['medial-epicondyle', 'medial-epicondyle-sulcus', 'lateral-epicondyle', 'adductor-tubercle'],
  tibia: ['fibular-tip', 'tibial-tubercle', 'tibial-spines', 'talus-medial', 'talus-lateral'],
};

/** A point of the bone, with where it was marked on either film. */
export interface WipePoint {
  readonly landmark: Landmark & { readonly id: LandmarkId };
  readonly earlier: Place | null;
  readonly later: Place | null;
  /** It counts unless somebody chose otherwise. */
  readonly isFixed: boolean;
}

export function wipePoints(marks: readonly Mark[], { earlier, later }: Dates, on: { side: Side; bone: WipeBone }) {
  const at = (film: CaseFilm, landmark: LandmarkId): Place | null =>
    marks.find((m) => m.film === film.id && m.side === on.side && m.landmark === landmark)?.points[0] ?? null;
  return LANDMARKS.filter((l: Landmark) => l.bone === on.bone && !l.outline && l.views.includes(later.view)).map(
    (landmark): WipePoint => ({
      landmark,
      earlier: at(earlier, landmark.id),
      later: at(later, landmark.id),
      isFixed: FIXED[on.bone].includes(landmark.id),
    }),
  );
}

/** The points that hold the films together: those chosen, or without a choice the fixed ones; marked on both films. */
export const chosenPoints = (points: readonly WipePoint[], chosen: Wipe['chosen']): readonly WipePoint[] =>
  points.filter((p) => p.earlier && p.later && (chosen ? chosen.includes(p.landmark.id) : p.isFixed));

/** The bone that has more points of its own on both films; the femur where both have as many. */
export function likelyBone(marks: readonly Mark[], dates: Dates, side: Side): WipeBone {
  const count = (bone: WipeBone): number => chosenPoints(wipePoints(marks, dates, { side, bone }), null).length;
  return count('tibia') > count('femur') ? 'tibia' : 'femur';
}

/** The earlier film laid onto the later one by the points chosen (VIEW-2). */
export const registered = (
  points: readonly WipePoint[],
  scales: { readonly earlier: Calibration | undefined; readonly later: Calibration | undefined },
): Outcome<FilmRegistration> =>
  registerFilms(
    points.flatMap((p) => (p.earlier && p.later ? [{ from: p.earlier, onto: p.later, name: p.landmark.label }] : [])),
    { earlier: pixelsOf(scales.earlier), later: pixelsOf(scales.later) },
  );

const pixelsOf = (calibration: Calibration | undefined): FilmPixels =>
  calibration && hasMillimetres(calibration)
    ? { mmPerPx: calibration.mmPerPx, aspect: calibration.mmPerPx.y / calibration.mmPerPx.x }
    : { mmPerPx: null, aspect: calibration?.source === 'none' ? (calibration.pixelAspect ?? 1) : 1 };
