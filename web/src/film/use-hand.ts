import { type Hand, IDLE, step } from '../gestures/hand.ts';
import type { Wish } from '../gestures/pointer.ts';
import { type HandOf, type OverPicture, usePointerHand } from '../gestures/use-pointer-hand.ts';
import { wheelWish } from '../gestures/wheel.ts';

const FILM_HAND: HandOf<Hand, Wish> = { idle: IDLE, isIdle: (hand) => hand.is === 'idle', step, linePx: 16 };

/** The hand over a film: its wheel zooms, moves, or changes the grey window. */
export const useHand = (over: Omit<OverPicture<Wish>, 'onWheel'>) =>
  usePointerHand(FILM_HAND, {
    ...over,
    onWheel: (wheel) => over.carryOut(wheelWish(wheel, over.setting.windowing)),
  });
