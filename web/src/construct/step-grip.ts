import { nextByHand, STEP_MM } from '@gapline/core/gaps/pinned/next-by-hand.ts';
import { pinsOfConstruct } from '@gapline/core/gaps/pinned/pin-of-construct.ts';
import { NO_STEM } from '@gapline/core/gaps/pinned/pinned.ts';
import { stopsOf } from '@gapline/core/gaps/pinned/reach.ts';
import { inFrame } from '@gapline/core/plan/components-on-film.ts';
import type { Desk } from '../case/desk.tsx';
import type { Session } from '../case/session.ts';
import type { Place } from '../film/viewport.ts';
import { fix, inReach, pinnedIn, stopWords } from './by-hand.ts';
import { componentOf, constructOn, keepHold } from './construct-on-film.ts';
import { draftPins } from './drag-grip.ts';
import { PINS_OF } from './grips.ts';
import { type Grip, lengthOf, takenUp, tenth } from './hold.ts';

/** A row of key presses becomes one change when the keys have rested this long. */
const REST_MS = 500;
const resting = new WeakMap<Session, number>();

/** Arrow keys: a length by half a millimetre, with Shift by two; what has steps by one step up or down. */
export function nudgeGrip(
  desk: Desk,
  { film, grip, by }: { readonly film: string; readonly grip: Grip; readonly by: Place },
): void {
  const there = constructOn(desk.planning.store.getState(), film);
  const on = there && componentOf(there, grip);
  if (!there || !on) return;
  const pressed = Math.hypot(by.x, by.y);
  const mm = pressed > 5 ? STEP_MM.long : pressed < 0.5 ? 0.1 : STEP_MM.usual;
  const to = inFrame(on, { x: on.zero.x + by.x, y: on.zero.y + by.y });
  const way = Math.abs(to.across) > Math.abs(to.up) ? 'across' : 'up';
  const sign = to[way] > 0 ? 1 : -1;
  if (lengthOf(grip, 'up') === null) {
    if (way === 'up') stepSize(desk, grip, sign);
    return;
  }
  const pin = on.view === 'coronal' && way === 'across' ? null : lengthOf(grip, way);
  if (!pin) return;
  // Presses may come faster than plans are made: the one under way counts.
  const fixed = pinnedIn(desk.session.store.getState().shown)[pin];
  const from = fixed ?? pinsOfConstruct(there.solved.construct, there.catalogue)[pin];
  const wanted = tenth(from + sign * mm);
  const stops = stopsOf({ ...there.question, pinned: { ...there.question.pinned, [pin]: wanted } });
  keepHold(desk, { ...takenUp(grip, { across: 0, up: 0 }), stop: stops.length > 0 ? stopWords(stops) : null });
  if (stops.length > 0) return;
  draftPins(desk, { [pin]: wanted }, there);
  window.clearTimeout(resting.get(desk.session));
  resting.set(
    desk.session,
    window.setTimeout(() => desk.session.commitDraft(), REST_MS),
  );
}

/** Brackets: the next smaller or larger one; a stem that would be none is passed over. */
export function stepSize(desk: Desk, grip: Grip, way: 1 | -1): void {
  const now = inReach(desk.planning.store.getState());
  const [id] = PINS_OF[grip];
  if (!now || !id || id === 'femurProximalMm' || id === 'femurAnteriorMm' || id === 'trayMm') return;
  if (id === 'distalAugmentsMm' || id === 'posteriorAugmentsMm' || id === 'tibialAugmentsMm') return;
  const { solved, catalogue, question } = now;
  const next = nextByHand(id, way, { construct: solved.construct, catalogue, side: question.state.side });
  const stop = !next || next[id] === NO_STEM ? 'end of the catalogue' : fix(desk, next);
  keepHold(desk, { ...takenUp(grip, { across: 0, up: 0 }), stop });
}
