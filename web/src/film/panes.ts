import { otherSide, type Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { sideOn } from './anchor.ts';
import { MOST_FILMS } from './viewing.ts';

/** One film as it stands on the page. */
export interface Pane {
  readonly key: string;
  readonly film: CaseFilm;
  /** The knee that is looked at. */
  readonly side: Side;
  /** The other knee, shown mirrored for comparison. */
  readonly otherKnee: boolean;
  readonly first: boolean;
}

/** What stands side by side: the films chosen, and the other knee mirrored beside the first one where there is a film of it. */
export function panesOf(
  films: readonly CaseFilm[],
  shown: readonly string[],
  { side, otherKnee }: { readonly side: Side; readonly otherKnee: boolean },
): readonly Pane[] {
  const chosen = shown.flatMap((id) => films.find((f) => f.id === id) ?? []);
  const panes = chosen.map(
    (film, i): Pane => ({ key: film.id, film, side: sideOn(film, side), otherKnee: false, first: i === 0 }),
  );
  const [first] = panes;
  const other = otherKnee && first ? filmOfOtherKnee(films, first.film) : undefined;
  if (!first || !other) return panes.slice(0, MOST_FILMS);
  const beside: Pane = {
    key: `${other.id} mirrored`,
    film: other,
    side: otherSide(first.side),
    otherKnee: true,
    first: false,
  };
  return [first, beside, ...panes.slice(1)].slice(0, MOST_FILMS);
}

/** A film of the same view with the other knee on it: of both legs that same film, else the nearest in date. */
export function filmOfOtherKnee(films: readonly CaseFilm[], film: CaseFilm): CaseFilm | undefined {
  if (film.side === 'both') return film;
  const others = films.filter((f) => f.view === film.view && f.side === otherSide(film.side as Side));
  const day = (f: CaseFilm): number => Date.parse(f.takenOn ?? '');
  const apart = (f: CaseFilm): number => {
    const days = Math.abs(day(f) - day(film));
    return Number.isNaN(days) ? Number.POSITIVE_INFINITY : days;
  };
  return others.toSorted((a, b) => apart(a) - apart(b) || 0)[0];
}
