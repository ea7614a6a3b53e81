import { guidedOrder } from '@gapline/core/landmarks/guided-order.ts';
import { LANDMARKS, type Landmark, type LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { type SkippedMark, sameLandmark } from '@gapline/core/landmarks/repeated-mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { isAskedFor, isMarked } from '../case/marking.ts';
import { expectedPlace } from '../sketch/expected-place.ts';

export type AskedLandmark = Landmark & { readonly id: LandmarkId };
type Name = Pick<Mark, 'landmark' | 'side' | 'film'>;

const tours = new Map<CaseFilm['view'], readonly AskedLandmark[]>();

/** What can be marked on such a film, in the order of least movement from the top (LM-8). */
export function tourOf(view: CaseFilm['view']): readonly AskedLandmark[] {
  const there = tours.get(view);
  if (there) return there;
  const all: readonly AskedLandmark[] = LANDMARKS.filter((l: Landmark) => l.views.includes(view));
  const tour = guidedOrder(all.map((l) => ({ landmark: l, ...expectedPlace(l.id) }))).map((s) => s.landmark);
  tours.set(view, tour);
  return tour;
}

export const skipOf = (file: CaseFile, name: Name): SkippedMark | undefined =>
  file.skipped?.find((s) => sameLandmark(s, name));

/** Whether a landmark still waits: asked for as things stand, neither marked nor passed over. */
export const isOpen = (file: CaseFile, name: Name): boolean =>
  !isMarked(file, name) && isAskedFor(file, name) && !skipOf(file, name);

export interface Asking {
  readonly film: CaseFilm;
  readonly side: Side;
  /** Put off for now, by the name of the mark. */
  readonly later: ReadonlySet<string>;
  /** Where the hand is: the landmark that it placed last. */
  readonly after?: LandmarkId | undefined;
}

/** Next landmark to ask for: the first open one along the tour after the hand's place, then from the beginning. */
export function nextToMark(file: CaseFile, { film, side, later, after }: Asking): AskedLandmark | null {
  const tour = tourOf(film.view);
  const from = after === undefined ? 0 : tour.findIndex((l) => l.id === after) + 1;
  const round = [...tour.slice(from), ...tour.slice(0, from)];
  return (
    round.find(
      (l) => !later.has(`${l.id}|${side}|${film.id}`) && isOpen(file, { landmark: l.id, side, film: film.id }),
    ) ?? null
  );
}

/** What the second marking of a film asks for: everything that is marked there, along the same tour. */
export const toRepeat = (file: CaseFile, film: CaseFilm, side: Side): readonly LandmarkId[] =>
  tourOf(film.view)
    .map((l) => l.id)
    .filter((id) => isMarked(file, { landmark: id, side, film: film.id }));
