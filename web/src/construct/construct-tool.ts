import { pinInWords, pinsOfConstruct } from '@gapline/core/gaps/pinned/pin-of-construct.ts';
import { isLengthPin } from '@gapline/core/gaps/pinned/pinned.ts';
import type { Desk } from '../case/desk.tsx';
import type { FilmTool, ToolInHand } from '../film/tool-in-hand.ts';
import type { Place } from '../film/viewport.ts';
import { inReach, labelOf, pinnedIn, release } from './by-hand.ts';
import { constructOn } from './construct-on-film.ts';
import { dragGrip } from './drag-grip.ts';
import { GRIP_WORDS, gripsOn, gripUnder, isGrip, PINS_OF } from './grips.ts';
import type { Grip } from './hold.ts';
import { nudgeGrip, stepSize } from './step-grip.ts';

type InHand = Extract<ToolInHand, { is: 'construct' }>;

/**
 * The construct in the hand: what is dragged becomes a pin, shown at once and kept when the hand lets go; the solver
 * settles everything else about it, and no hard limit is passed (GAP-40, GAP-43, GAP-44).
 */
export function constructTool(desk: Desk, inHand: InHand): FilmTool {
  const now = () => constructOn(desk.planning.store.getState(), inHand.film);
  const there = now();
  const selected = desk.state.getState().selected;
  const grip = selected && isGrip(selected.key) ? selected.key : null;
  return {
    handles: there ? gripsOn(there) : [],
    places: false,
    draws: false,
    noLoupe: true,
    line: lineOf(desk, { inHand, grip }),
    ...(grip ? {} : { keys: KEYS }),
    grab: (at) => {
      const film = now();
      const under = film && gripUnder(film, at);
      return under && film && gripsOn(film).some((h) => h.key === under) ? { key: under, index: 0 } : null;
    },
    key: (key) => {
      if ((key !== '[' && key !== ']') || !grip) return false;
      stepSize(desk, grip, key === ']' ? 1 : -1);
      return true;
    },
    ...(grip ? { nudge: (by: Place) => nudgeGrip(desk, { film: inHand.film, grip, by }) } : {}),
    move: (point, to) => {
      if (isGrip(point.key)) dragGrip(desk, { film: inHand.film, grip: point.key, to });
    },
    remove: (point) => {
      if (isGrip(point.key)) release(desk, PINS_OF[point.key]);
    },
    back: () => undefined,
    press: () => undefined,
    stroke: () => undefined,
    close: () => undefined,
    leave: () => {
      desk.session.dropDraft();
      desk.state.setState({ tool: null, selected: null });
    },
  };
}

const KEYS = 'Arrow keys: 0.5 mm, with Shift 2 mm. [ and ]: another size. Delete: release. Escape: done.';

function lineOf(desk: Desk, { inHand, grip }: { readonly inHand: InHand; readonly grip: Grip | null }): string {
  const planning = desk.planning.store.getState();
  const reach = inReach(planning);
  if (!reach) return 'There is no construct to move. Escape: done.';
  if (!grip) return 'Drag a component, or Tab to its grip.';
  const stop = inHand.hold?.grip === grip && inHand.hold.stop ? ` Stop: ${inHand.hold.stop}.` : '';
  const has = pinsOfConstruct(reach.solved.construct, reach.catalogue);
  const fixed = pinnedIn(planning.of);
  const told = PINS_OF[grip].map((id) => {
    const words = pinInWords(id, has, reach.catalogue);
    const name = isLengthPin(id) ? `${labelOf(id).toLowerCase()} ` : '';
    return `${name}${words}${fixed[id] === undefined ? '' : ', fixed'}`;
  });
  return `${GRIP_WORDS[grip]}: ${told.join('; ')}.${stop}`;
}
