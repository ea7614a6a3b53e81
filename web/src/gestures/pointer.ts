import type { Place } from '../film/viewport.ts';

/** One pointer event over the film, freed of the browser. */
export interface Pointer {
  readonly type: 'down' | 'move' | 'up' | 'cancel';
  readonly id: number;
  /** Screen pixels of the film area. */
  readonly at: Place;
  readonly device: 'mouse' | 'touch' | 'pen';
  readonly button: 'main' | 'middle' | 'second' | 'none';
  /** The space bar is held, or the hand was chosen: drag the film whatever lies under the pointer. */
  readonly hand: boolean;
  /** The mark under the pointer, when it went down. */
  readonly on: MarkPoint | null;
}

/** One point of one mark on the shown film: an outline has several. */
export interface MarkPoint {
  readonly key: string;
  readonly index: number;
}

export type StrokePhase = 'begin' | 'on' | 'end' | 'cancel';

/** What a gesture asks for; the page carries it out. All lengths in screen pixels. */
export type Wish =
  | { readonly kind: 'pan'; readonly dx: number; readonly dy: number }
  | { readonly kind: 'zoom'; readonly factor: number; readonly at: Place }
  | { readonly kind: 'window'; readonly dx: number; readonly dy: number }
  | { readonly kind: 'select'; readonly point: MarkPoint | null }
  /** The grabbed point belongs at `to`; `last` = let go there. */
  | { readonly kind: 'move-point'; readonly point: MarkPoint; readonly to: Place; readonly last: boolean }
  | { readonly kind: 'let-go' }
  | { readonly kind: 'place'; readonly at: Place }
  /** A line drawn freehand: where it begins, goes on and ends; `cancel` = it counts for nothing. */
  | { readonly kind: 'stroke'; readonly phase: StrokePhase; readonly at: Place }
  | { readonly kind: 'loupe'; readonly at: Place | null };

/** A pointer moved no farther than this has been pressed, not dragged. */
export const SLOP: Readonly<Record<Pointer['device'], number>> = { mouse: 3, pen: 5, touch: 10 };

/** How near a pointer must come to a mark to grab it. */
export const REACH: Readonly<Record<Pointer['device'], number>> = { mouse: 12, pen: 16, touch: 26 };

/** The nearest point within reach; of two equally near ones the first. */
export function pointUnder<T extends { readonly at: Place }>(points: readonly T[], at: Place, reach: number): T | null {
  let best: T | null = null;
  let least = reach;
  for (const candidate of points) {
    const far = Math.hypot(candidate.at.x - at.x, candidate.at.y - at.y);
    if (far < least || (far === least && best === null)) {
      best = candidate;
      least = far;
    }
  }
  return best;
}
