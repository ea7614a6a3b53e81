import { type Hand, IDLE, type Setting, step } from '../gestures/hand.ts';
import type { Pointer, Wish } from '../gestures/pointer.ts';

/** What the pointers over a stack are about: the hand over a film, but that a plain drag goes through the slices. */
export interface StackHand {
  readonly hand: Hand;
  /** The drag under way began as a plain press: it goes through the slices. */
  readonly scrolls: boolean;
}

export type StackWish =
  | Wish
  /** Screen pixels dragged up (-) or down (+). */
  | { readonly kind: 'scroll'; readonly dy: number };

export const STACK_IDLE: StackHand = { hand: IDLE, scrolls: false };

/**
 * The hand after one pointer event, and what it asks for. One finger or the main button goes through the slices; two fingers, the
 * middle button, or the space bar held move and zoom the picture; everything else is as over a film.
 */
export function stackStep(
  before: StackHand,
  pointer: Pointer,
  setting: Setting,
): { readonly hand: StackHand; readonly wishes: readonly StackWish[] } {
  const next = step(before.hand, pointer, setting);
  const begins = before.hand.is === 'pressed' && next.hand.is === 'panning';
  const scrolls = next.hand.is === 'panning' && (begins || before.scrolls);
  const wishes = next.wishes.map(
    (wish): StackWish => (scrolls && wish.kind === 'pan' ? { kind: 'scroll', dy: wish.dy } : wish),
  );
  return { hand: { hand: next.hand, scrolls }, wishes };
}
