import { asked, type SolverQuestion } from '../solve.ts';
import { limitsInTheWay } from '../solver/why-none.ts';
import type { LengthPin, Pinned } from './pinned.ts';
import { goes, TENTHS } from './why-pinned.ts';

/** How far a length can be moved by hand, mm; both ends still go. */
export interface Reach {
  readonly lowMm: number;
  readonly highMm: number;
}

/** Farthest that a hand moves a component from where it stands, mm, and the step in which limits are looked for. */
const FARTHEST_MM = 40;
const STEP_MM = 1;

type Asked = SolverQuestion & { readonly pinned: Pinned };

/**
 * How far a length can be moved before a hard limit stops it (GAP-43), with whatever else is fixed: to a tenth of a
 * millimetre, on both sides of where it stands. Parts that are not fixed may change on the way; gaps between two ranges that are
 * narrower than 1 mm are stepped over.
 *
 * @param fromMm where it stands, mm; it must go there.
 * @returns null where it does not.
 */
export function reachOf(question: Asked, id: LengthPin, fromMm: number): Reach | null {
  const does = (mm: number): boolean => goes({ ...question, pinned: { ...question.pinned, [id]: mm } });
  if (!does(fromMm)) return null;
  return { lowMm: endOf(does, fromMm, -1), highMm: endOf(does, fromMm, 1) };
}

/** The last tenth that goes, in one direction. */
function endOf(does: (mm: number) => boolean, fromMm: number, way: 1 | -1): number {
  const tenth = (n: number): number => n / TENTHS;
  const start = way > 0 ? Math.floor(fromMm * TENTHS) : Math.ceil(fromMm * TENTHS);
  let steps = 0;
  while (steps < FARTHEST_MM / STEP_MM && does(tenth(start + way * (steps + 1) * STEP_MM * TENTHS))) steps++;
  let inside = steps * STEP_MM * TENTHS;
  if (steps >= FARTHEST_MM / STEP_MM) return tenth(start + way * inside);
  let outside = inside + STEP_MM * TENTHS;
  while (outside - inside > 1) {
    const middle = (inside + outside) >> 1;
    if (does(tenth(start + way * middle))) inside = middle;
    else outside = middle;
  }
  // From a place between two tenths the first one may not go.
  return inside === 0 ? fromMm : tenth(start + way * inside);
}

/** The limits that stop what would be fixed next, by name; empty where it goes. */
export const stopsOf = (question: Asked): ReturnType<typeof limitsInTheWay> =>
  goes(question) ? [] : limitsInTheWay(asked(question));
