import type { Place } from '../film/viewport.ts';
import { movePinch, type Pinch } from './pinch.ts';
import { type MarkPoint, type Pointer, SLOP, type StrokePhase, type Wish } from './pointer.ts';

/**
 * What the pointers over the film are about: a small state machine. The main button on a mark moves it;
 * elsewhere a press places (when something is to be placed) and a drag pans, or draws where a line is to be drawn;
 * the second button sets the grey window; two fingers pan and zoom.
 * A finger or pen covers what it presses: while something is to be placed it aims under the loupe and places where it lifts.
 */
export type Hand =
  | { readonly is: 'idle' }
  | { readonly is: 'pressed'; readonly id: number; readonly from: Place }
  | { readonly is: 'panning'; readonly id: number; readonly last: Place }
  | { readonly is: 'aiming'; readonly id: number; readonly last: Place }
  | { readonly is: 'drawing'; readonly id: number; readonly last: Place }
  | { readonly is: 'windowing'; readonly id: number; readonly last: Place }
  | {
      readonly is: 'grabbed' | 'moving';
      readonly id: number;
      readonly point: MarkPoint;
      readonly from: Place;
      /** From the pointer to the point it grabbed: the point does not jump under the finger. */
      readonly offset: Place;
      readonly last: Place;
    }
  | { readonly is: 'pinching'; readonly pinch: Pinch };

export const IDLE: Hand = { is: 'idle' };

/** What the hand is there for at the moment. */
export interface Setting {
  /** A landmark waits to be placed. */
  readonly placing: boolean;
  /** A line waits to be drawn: a drag draws it. Absent = no. */
  readonly drawing?: boolean;
  /** The main button sets the grey window. */
  readonly windowing: boolean;
  /** Whether a press on that point, let go where it fell, places there instead of selecting the point; absent = never. */
  readonly placesOn?: (point: MarkPoint) => boolean;
  /** Where a grabbed point stands on the screen. */
  readonly placeOf: (point: MarkPoint) => Place | null;
}

interface Turn {
  readonly hand: Hand;
  readonly wishes: readonly Wish[];
}

const turn = (hand: Hand, ...wishes: Wish[]): Turn => ({ hand, wishes });
const sum = (a: Place, b: Place): Place => ({ x: a.x + b.x, y: a.y + b.y });
const from = (a: Place, b: Place) => ({ dx: b.x - a.x, dy: b.y - a.y });
const stroke = (phase: StrokePhase, at: Place): Wish => ({ kind: 'stroke', phase, at });
const far = (a: Place, b: Place, device: Pointer['device']): boolean => Math.hypot(a.x - b.x, a.y - b.y) > SLOP[device];

/** The hand after one pointer event, and what it asks for. */
export function step(hand: Hand, pointer: Pointer, setting: Setting): Turn {
  switch (pointer.type) {
    case 'down':
      return hand.is === 'idle' ? takeUp(pointer, setting) : secondPointer(hand, pointer);
    case 'move':
      return move(hand, pointer, setting);
    case 'up':
      return letGo(hand, pointer, setting);
    case 'cancel':
      return cancelled(hand, pointer);
  }
}

function cancelled(hand: Hand, { at }: Pointer): Turn {
  if (hand.is === 'drawing') return turn(IDLE, stroke('cancel', at));
  if (hand.is === 'aiming') return turn(IDLE, { kind: 'loupe', at: null });
  return hand.is === 'grabbed' || hand.is === 'moving'
    ? turn(IDLE, { kind: 'let-go' }, { kind: 'loupe', at: null })
    : turn(IDLE);
}

function takeUp({ id, at, device, button, hand, on }: Pointer, setting: Setting): Turn {
  if (button === 'second' || (button === 'main' && setting.windowing)) return turn({ is: 'windowing', id, last: at });
  if (button === 'middle' || hand) return turn({ is: 'panning', id, last: at });
  const stands = on && setting.placeOf(on);
  if (!on || !stands)
    return setting.placing && !setting.drawing && device !== 'mouse'
      ? turn({ is: 'aiming', id, last: at }, { kind: 'loupe', at })
      : turn({ is: 'pressed', id, from: at });
  const offset = { x: stands.x - at.x, y: stands.y - at.y };
  return turn(
    { is: 'grabbed', id, point: on, from: at, offset, last: at },
    { kind: 'select', point: on },
    { kind: 'loupe', at: stands },
  );
}

/** A second finger makes any gesture but a drag under way a pinch; further ones change nothing. */
function secondPointer(hand: Hand, { id, at, device }: Pointer): Turn {
  if (device !== 'touch' || hand.is === 'idle' || hand.is === 'pinching' || hand.is === 'moving') return turn(hand);
  const first = hand.is === 'pressed' ? hand.from : hand.last;
  const pinch: Pinch = {
    fingers: new Map([
      [hand.id, first],
      [id, at],
    ]),
  };
  const quiet: Wish = { kind: 'loupe', at: null };
  if (hand.is === 'drawing') return turn({ is: 'pinching', pinch }, stroke('cancel', first), quiet);
  return turn({ is: 'pinching', pinch }, quiet);
}

function move(hand: Hand, { id, at, device }: Pointer, setting: Setting): Turn {
  if (hand.is === 'pinching') {
    const { pinch, wishes } = movePinch(hand.pinch, id, at);
    return turn({ is: 'pinching', pinch }, ...wishes);
  }
  if (hand.is === 'idle' || hand.id !== id) return turn(hand);
  switch (hand.is) {
    case 'pressed':
      if (!far(hand.from, at, device)) return turn(hand);
      return setting.drawing
        ? turn({ is: 'drawing', id, last: at }, stroke('begin', hand.from), stroke('on', at))
        : turn({ is: 'panning', id, last: at }, { kind: 'pan', ...from(hand.from, at) });
    case 'drawing':
      return turn({ ...hand, last: at }, stroke('on', at));
    case 'panning':
      return turn({ ...hand, last: at }, { kind: 'pan', ...from(hand.last, at) });
    case 'aiming':
      return turn({ ...hand, last: at }, { kind: 'loupe', at });
    case 'windowing':
      return turn({ ...hand, last: at }, { kind: 'window', ...from(hand.last, at) });
    case 'grabbed':
    case 'moving': {
      if (hand.is === 'grabbed' && !far(hand.from, at, device)) return turn(hand);
      const to = sum(at, hand.offset);
      return turn(
        { ...hand, is: 'moving', last: at },
        { kind: 'move-point', point: hand.point, to, last: false },
        { kind: 'loupe', at: to },
      );
    }
  }
}

function letGo(hand: Hand, { id, at }: Pointer, setting: Setting): Turn {
  if (hand.is === 'pinching') {
    const left = [...hand.pinch.fingers].find(([finger]) => finger !== id);
    return left && hand.pinch.fingers.has(id) ? turn({ is: 'panning', id: left[0], last: left[1] }) : turn(hand);
  }
  if (hand.is === 'idle' || hand.id !== id) return turn(hand);
  if (hand.is === 'pressed') {
    return turn(IDLE, setting.placing ? { kind: 'place', at: hand.from } : { kind: 'select', point: null });
  }
  if (hand.is === 'drawing') return turn(IDLE, stroke('end', at));
  if (hand.is === 'aiming') return turn(IDLE, { kind: 'place', at }, { kind: 'loupe', at: null });
  if (hand.is === 'moving') {
    const to = sum(at, hand.offset);
    return turn(IDLE, { kind: 'move-point', point: hand.point, to, last: true }, { kind: 'loupe', at: null });
  }
  if (hand.is !== 'grabbed') return turn(IDLE);
  const quiet: Wish = { kind: 'loupe', at: null };
  return setting.placesOn?.(hand.point) ? turn(IDLE, { kind: 'place', at: hand.from }, quiet) : turn(IDLE, quiet);
}
