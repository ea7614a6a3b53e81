import { useRef } from 'react';
import { type HandOf, type OverPicture, usePointerHand } from '../gestures/use-pointer-hand.ts';
import { wheelWish } from '../gestures/wheel.ts';
import { wheelSlices } from './scroll.ts';
import { STACK_IDLE, type StackHand, type StackWish, stackStep } from './stack-hand.ts';

const STACK_HAND: HandOf<StackHand, StackWish> = {
  idle: STACK_IDLE,
  isIdle: ({ hand }) => hand.is === 'idle',
  step: stackStep,
  linePx: 34,
};

interface Over extends Omit<OverPicture<StackWish>, 'onWheel'> {
  /** Slices to go by, towards the head +. */
  readonly go: (by: number) => void;
}

/** The hand over a stack: its wheel goes through the slices, and with a key held does what it does over a film. */
export function useStackHand({ go, ...over }: Over) {
  const turned = useRef(0);
  return usePointerHand(STACK_HAND, {
    ...over,
    onWheel: (wheel) => {
      const { windowing } = over.setting;
      if (wheel.shift || wheel.alt || wheel.ctrl || windowing) return over.carryOut(wheelWish(wheel, windowing));
      const next = wheelSlices(wheel.dy, turned.current);
      turned.current = next.rest;
      go(next.by);
    },
  });
}
