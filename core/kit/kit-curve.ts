import { finish } from '../measure/steps.ts';
import { type ChosenRoom, chooseRooms, type Effort } from './cover/choose-rooms.ts';
import { SAME_COST } from './cover/local-search.ts';
import type { Reduced } from './cover/reduce.ts';

export interface CurveAsked extends Effort {
  /** Weight of all drawn knees. */
  readonly total: number;
}

/** Steps finer than this share are passed over: at first, and from nine in ten on. */
const COARSE = 0.01;
const FINE = 0.001;
const FINE_FROM = 0.9;
/** A question with more options than this is told in steps ten times as coarse. */
const LARGE = 10_000;

/**
 * The whole curve of cost against coverage: from what is covered without bringing anything to the fullest room, each
 * step the cheapest room that covers a little more than the one before (KIT-10). Yields the share that is done.
 */
export function* kitCurve(
  reduced: Reduced,
  { total, ...effort }: CurveAsked,
): Generator<number, readonly ChosenRoom[]> {
  const { cover, always, fixed, fixedCost } = reduced;
  const most = always + cover.total;
  const coarser = cover.groupOf.length > LARGE ? 10 : 1;
  const steps: ChosenRoom[] = [{ sets: fixed, cost: fixedCost, covered: always, leastCost: fixedCost, proven: true }];
  for (let covered = always; covered < most; ) {
    const step = covered < FINE_FROM * total ? COARSE : FINE;
    const need = Math.min(most, covered + Math.max(1e-9, Math.ceil(step * coarser * total)));
    const room = finish(chooseRooms(reduced, need, effort));
    const last = steps.at(-1);
    // A step at no more cost stands in for the one before.
    if (last && room.cost <= last.cost + SAME_COST) steps.pop();
    steps.push(room);
    covered = room.covered;
    yield covered / most;
  }
  return steps;
}
