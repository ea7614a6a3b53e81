import type { StrokePhase } from '../gestures/pointer.ts';
import { crossesItself, enclosesNothing, LEAST_CORNERS, loopIn, simplified } from './outline-shape.ts';
import type { Place } from './viewport.ts';

/** An outline in the making, film pixels. */
export interface Drawing {
  readonly points: readonly Place[];
  /** How many of the points stood before the line under way; null = no line is under way. */
  readonly lineFrom: number | null;
}

export const NOTHING_DRAWN: Drawing = { points: [], lineFrom: null };

/** What the hand does, film pixels. */
export type DrawEvent =
  | { readonly kind: 'stroke'; readonly phase: StrokePhase; readonly at: Place }
  | { readonly kind: 'press'; readonly at: Place }
  | { readonly kind: 'close' }
  | { readonly kind: 'back' };

/** How fine the hand is at the scale shown, film pixels. */
export interface Fineness {
  /** A press nearer than this to the first point closes the outline. */
  readonly reach: number;
  /** A freehand line is thinned out to this. */
  readonly jitter: number;
}

export interface DrawTurn {
  readonly drawing: Drawing;
  /** The outline, once it is whole; the drawing is empty again then. */
  readonly closed: readonly Place[] | null;
  /** Why it could not be closed. */
  readonly said: string | null;
}

const still = (points: readonly Place[], said: string | null = null): DrawTurn => ({
  drawing: { points, lineFrom: null },
  closed: null,
  said,
});

/**
 * Draws one closed outline: freehand in one sweep, point by point, or both. A sweep that begins on an empty film is
 * whole when the hand is lifted; points are closed by a press on the first one, by Enter on it, or by the key C.
 */
export function drawStep(drawing: Drawing, event: DrawEvent, fine: Fineness): DrawTurn {
  const { points } = drawing;
  switch (event.kind) {
    case 'stroke':
      return stroke(drawing, event, fine);
    case 'press': {
      const [first] = points;
      const onFirst = first && Math.hypot(first.x - event.at.x, first.y - event.at.y) <= fine.reach;
      return onFirst && points.length >= LEAST_CORNERS ? closed(points) : still([...points, event.at]);
    }
    case 'close':
      return points.length === 0 ? still(points) : closed(points);
    case 'back':
      return still(points.slice(0, -1));
  }
}

function stroke(drawing: Drawing, { phase, at }: { phase: StrokePhase; at: Place }, fine: Fineness): DrawTurn {
  const { points, lineFrom } = drawing;
  if (phase === 'begin') return { ...still(points), drawing: { points: [...points, at], lineFrom: points.length } };
  if (lineFrom === null) return still(points);
  if (phase === 'cancel') return still(points.slice(0, lineFrom));
  const all = [...points, at];
  if (phase === 'on') return { ...still(all), drawing: { points: all, lineFrom } };
  const line = simplified(all.slice(lineFrom), fine.jitter);
  if (lineFrom > 0) return still([...all.slice(0, lineFrom), ...line]);
  const loop = loopIn(line);
  const turn = closed(loop);
  // A sweep that encloses nothing leaves nothing behind.
  return turn.closed ? turn : still([], turn.said);
}

function closed(points: readonly Place[]): DrawTurn {
  if (crossesItself(points)) return still(points, 'The outline crosses itself. Take back points with Backspace.');
  if (enclosesNothing(points)) return still(points, 'Three points or more are wanted, not in one line.');
  return { drawing: NOTHING_DRAWN, closed: points, said: null };
}
