/** A place that the hand has to go to; any unit, the same for all. */
export interface Stop {
  readonly x: number;
  readonly y: number;
}

/** Longest run of stops that is moved as one. */
const LONGEST_RUN = 3;
/** A gain smaller than this share of the whole is rounding. */
const LEAST_GAIN = 1e-9;

/**
 * The order in which landmarks are asked for, so that the hand moves least (LM-8): a short open tour over the places where they
 * are expected, from `start` (null: from the topmost stop, of equal ones the leftmost), ending anywhere. Two first tours,
 * nearest place next and cheapest insertion, are each bettered by turning runs round and by moving short runs elsewhere until
 * nothing helps; the shorter is kept. Ties go to the earlier stop of the list: the same list gives the same
 * order. Small sets are judged by trying every order.
 */
export function guidedOrder<T extends Stop>(stops: readonly T[], start: Stop | null = null): readonly T[] {
  if (stops.length < 2) return stops;
  const from = start ?? topmost(stops);
  const [first, second] = [nearestNext(stops, from), cheapestInsertion(stops, from)].map((t) => bettered(t, from));
  return first && second && tourLength(second, from) < tourLength(first, from) * (1 - LEAST_GAIN)
    ? second
    : (first ?? stops);
}

/** Way from the start through all stops in their order, in the unit of the places; 0 without stops. */
export function tourLength(tour: readonly Stop[], start: Stop): number {
  let length = 0;
  let at = start;
  for (const stop of tour) {
    length += apart(at, stop);
    at = stop;
  }
  return length;
}

const apart = (a: Stop, b: Stop): number => Math.hypot(a.x - b.x, a.y - b.y);

const topmost = (stops: readonly Stop[]): Stop =>
  stops.reduce((best, s) => (s.y < best.y || (s.y === best.y && s.x < best.x) ? s : best));

function nearestNext<T extends Stop>(stops: readonly T[], start: Stop): T[] {
  const left = [...stops];
  const tour: T[] = [];
  for (let at = start; left.length > 0; ) {
    const next = left.reduce((best, s) => (apart(at, s) < apart(at, best) ? s : best));
    left.splice(left.indexOf(next), 1);
    tour.push(next);
    at = next;
  }
  return tour;
}

function cheapestInsertion<T extends Stop>(stops: readonly T[], start: Stop): T[] {
  let tour: T[] = [];
  for (const stop of stops) {
    const tries = Array.from({ length: tour.length + 1 }, (_, i) => tour.toSpliced(i, 0, stop));
    tour = tries.reduce((best, t) => (tourLength(t, start) < tourLength(best, start) ? t : best));
  }
  return tour;
}

function bettered<T extends Stop>(first: readonly T[], start: Stop): readonly T[] {
  let tour = first;
  for (;;) {
    const next = shorterNeighbour(tour, start);
    if (!next) return tour;
    tour = next;
  }
}

/** First tour found that is shorter: a run turned round, or a short run moved, either way round. */
function shorterNeighbour<T extends Stop>(tour: readonly T[], start: Stop): readonly T[] | null {
  const least = LEAST_GAIN * (1 + tourLength(tour, start));
  const at = (i: number): Stop | undefined => (i < 0 ? start : tour[i]);
  for (let i = 0; i < tour.length; i++) {
    for (let j = i + 2; j <= tour.length; j++) {
      const gain = way(at(i - 1), at(i)) + way(at(j - 1), at(j)) - way(at(i - 1), at(j - 1)) - way(at(i), at(j));
      if (gain > least) return [...tour.slice(0, i), ...tour.slice(i, j).toReversed(), ...tour.slice(j)];
    }
    for (let run = 1; run <= LONGEST_RUN && i + run <= tour.length; run++) {
      const moved = movedRun(tour, { from: i, run, start, least });
      if (moved) return moved;
    }
  }
  return null;
}

/** A short run of stops put elsewhere, either way round, where that shortens the tour. */
function movedRun<T extends Stop>(
  tour: readonly T[],
  of: { readonly from: number; readonly run: number; readonly start: Stop; readonly least: number },
): readonly T[] | null {
  const { from, run, start, least } = of;
  const rest = tour.toSpliced(from, run);
  const moved = tour.slice(from, from + run);
  const [first, last] = [moved[0], moved.at(-1)];
  const at = (i: number): Stop | undefined => (i < 0 ? start : rest[i]);
  const without = way(at(from - 1), first) + way(last, at(from)) - way(at(from - 1), at(from));
  for (let to = 0; to <= rest.length; to++) {
    const [before, after] = [at(to - 1), at(to)];
    const open = way(before, after);
    if (without - (way(before, first) + way(last, after) - open) > least) return rest.toSpliced(to, 0, ...moved);
    if (without - (way(before, last) + way(first, after) - open) > least)
      return rest.toSpliced(to, 0, ...moved.toReversed());
  }
  return null;
}

/** From one stop to the next; the tour is open, so that nothing follows its last one. */
const way = (a: Stop | undefined, b: Stop | undefined): number => (a && b ? apart(a, b) : 0);
