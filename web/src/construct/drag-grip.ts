import { choicesByHand } from '@gapline/core/gaps/pinned/next-by-hand.ts';
import { pinsOfConstruct } from '@gapline/core/gaps/pinned/pin-of-construct.ts';
import type { LengthPin, Pinned } from '@gapline/core/gaps/pinned/pinned.ts';
import { type Reach, reachOf, stopsOf } from '@gapline/core/gaps/pinned/reach.ts';
import { type ComponentOnFilm, inFrame, originOf } from '@gapline/core/plan/components-on-film.ts';
import type { Desk } from '../case/desk.tsx';
import type { Place } from '../film/viewport.ts';
import { type InReach, pinEdits, pinWords, stopWords } from './by-hand.ts';
import { componentOf, constructOn, keepHold } from './construct-on-film.ts';
import { facesOf, type OnOneFilm, PINS_OF } from './grips.ts';
import { type Grip, type Hold, holdOn, lengthOf, type Mm, nearest, takenUp, tenth, withinReach } from './hold.ts';

/** Shows what the hand wants as a change in the making. */
export function draftPins(desk: Desk, pins: Pinned, { catalogue }: InReach): void {
  desk.session.draft(pinEdits(pins), pinWords(pins, catalogue));
}

/** One move of a drag: what is moved stays where the hand has it, or at the stop. */
export function dragGrip(
  desk: Desk,
  { film, grip, to }: { readonly film: string; readonly grip: Grip; readonly to: Place },
): void {
  const there = constructOn(desk.planning.store.getState(), film);
  const on = there && componentOf(there, grip);
  if (!there || !on) return;
  const { tool } = desk.state.getState();
  const known = tool?.is === 'construct' && tool.hold?.grip === grip ? tool.hold : null;
  const [across, up] = originOf(on, there.solved.construct);
  const wanted = wantedBy(grip, { on, there, at: inFrame(on, to) });
  // Without a change in the making this is a new drag.
  const fresh = !known || desk.session.store.getState().draft === null;
  const before = fresh ? takenUp(grip, { across, up }) : known;
  if (lengthOf(grip, 'up') === null) {
    choose(desk, { there, hold: before, on, at: inFrame(on, to) });
    return;
  }
  const hold = holdOn(before, wanted, on.view === 'sagittal' && grip === 'femur');
  const pin = hold.way && lengthOf(grip, hold.way);
  if (!pin || !hold.way) {
    keepHold(desk, hold);
    return;
  }
  const from = pinsOfConstruct(there.solved.construct, there.catalogue)[pin];
  const reach = hold.reach ?? withPin(reachOf(there.question, pin, from), pin);
  if (!reach) {
    keepHold(desk, hold);
    return;
  }
  const { mm, stopped } = withinReach(wanted[hold.way], reach);
  keepHold(desk, {
    ...hold,
    reach,
    stop: stopped ? (hold.stop ?? stopBeyond(there, { pin, mm, wanted: wanted[hold.way] })) : null,
  });
  draftPins(desk, { [pin]: mm }, there);
}

const withPin = (reach: Reach | null, pin: LengthPin): Hold['reach'] => reach && { ...reach, pin };

/** Where the component's origin would stand with the grip at a place, mm. */
function wantedBy(
  grip: Grip,
  { on, there, at }: { readonly on: ComponentOnFilm; readonly there: OnOneFilm; readonly at: Mm },
): Mm {
  const half = grip === 'femur' && on.view === 'sagittal' ? there.parts.femur.apMm / 2 : 0;
  return { across: at.across - half, up: at.up };
}

/** What stops a length just beyond where it stands. */
function stopBeyond(
  { question }: InReach,
  { pin, mm, wanted }: { readonly pin: LengthPin; readonly mm: number; readonly wanted: number },
): string {
  const beyond = tenth(mm + (wanted > mm ? 0.1 : -0.1));
  return stopWords(stopsOf({ ...question, pinned: { ...question.pinned, [pin]: beyond } }));
}

interface Choosing {
  readonly there: OnOneFilm & InReach;
  readonly hold: Hold;
  readonly on: ComponentOnFilm;
  readonly at: Mm;
}

/** A grip that has steps takes the one nearest to the hand: slope, insert, length of a stem. */
function choose(desk: Desk, { there, hold, on, at }: Choosing): void {
  const pins = choiceAt(hold.grip, { there, on, at });
  const has = pinsOfConstruct(there.solved.construct, there.catalogue);
  const [id] = PINS_OF[hold.grip];
  if (!pins || !id) return;
  if (pins[id] === has[id]) {
    keepHold(desk, { ...hold, stop: null });
    return;
  }
  const stops = stopsOf({ ...there.question, pinned: { ...there.question.pinned, ...pins } });
  keepHold(desk, { ...hold, stop: stops.length > 0 ? stopWords(stops) : null });
  if (stops.length === 0) draftPins(desk, pins, there);
}

function choiceAt(grip: Grip, { there, on, at }: Omit<Choosing, 'hold'>): Pinned | null {
  const { solved, catalogue, question, parts } = there;
  const knee = { catalogue, side: question.state.side };
  const { trayMm, femurProximalMm } = solved.construct;
  switch (grip) {
    case 'slope': {
      const wanted = (Math.atan2(at.up - trayMm - facesOf(there).faceMm, at.across) * 180) / Math.PI;
      const slopeDeg = nearest(choicesByHand('slopeDeg', knee), (deg) => Math.abs(Number(deg) - wanted));
      return slopeDeg === null ? null : { slopeDeg: Number(slopeDeg) };
    }
    case 'insert': {
      const wanted = at.up - trayMm - parts.tray.thicknessMm;
      const same = catalogue.inserts.filter((i) => i.size === parts.insert.size && i.level === parts.insert.level);
      const insert = nearest(same, (i) => Math.abs(i.heightMm - wanted));
      return insert && { insertMm: insert.labelMm };
    }
    default: {
      const [stem, id] =
        grip === 'femoral-stem'
          ? ([parts.femoralStem, 'femoralStem'] as const)
          : ([parts.tibialStem, 'tibialStem'] as const);
      const root = on.bone === 'femur' ? femurProximalMm + parts.femur.boxDepthMm : -(trayMm - parts.tray.keelMm);
      const wanted = (on.bone === 'femur' ? at.up : -at.up) - root;
      const alike = catalogue.stems.filter(
        (s) =>
          stem &&
          s.diameterMm === stem.diameterMm &&
          s.fixation === stem.fixation &&
          (s.bone === 'both' || s.bone === on.bone),
      );
      const found = nearest(alike, (s) => Math.abs(s.lengthMm - wanted));
      return found && { [id]: found.ref };
    }
  }
}
