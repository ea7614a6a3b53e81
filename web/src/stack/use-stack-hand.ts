import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import type { Place } from '../film/viewport.ts';
import type { Setting } from '../gestures/hand.ts';
import { type MarkPoint, type Pointer, pointUnder, REACH } from '../gestures/pointer.ts';
import { wheelWish } from '../gestures/wheel.ts';
import { wheelSlices } from './scroll.ts';
import { STACK_IDLE, type StackWish, stackStep } from './stack-hand.ts';

interface Over {
  readonly surface: RefObject<HTMLElement | null>;
  readonly setting: Setting;
  /** What can be grabbed on the slice, screen pixels; asked for when a pointer goes down. */
  readonly points: () => readonly (MarkPoint & { readonly at: Place })[];
  readonly carryOut: (wish: StackWish) => void;
  /** Slices to go by, towards the head +. */
  readonly go: (by: number) => void;
  readonly onHover: (at: Place | null) => void;
}

/** Brings the browser's pointers and wheel to the hand over a stack, and gives what the element listens with. */
export function useStackHand({ surface, setting, points, carryOut, go, onHover }: Over) {
  const hand = useRef(STACK_IDLE);
  const space = useRef(false);
  const turned = useRef(0);

  const onPointer = (type: Pointer['type'], event: PointerEvent<HTMLElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const at = { x: event.clientX - box.left, y: event.clientY - box.top };
    const device = event.pointerType === 'touch' ? 'touch' : event.pointerType === 'pen' ? 'pen' : 'mouse';
    if (type === 'down') {
      event.currentTarget.setPointerCapture(event.pointerId);
      surface.current?.focus({ preventScroll: true });
    }
    const under = type === 'down' ? pointUnder(points(), at, REACH[device]) : null;
    const next = stackStep(
      hand.current,
      {
        type,
        id: event.pointerId,
        at,
        device,
        button: (['main', 'middle', 'second'] as const)[event.button] ?? 'none',
        hand: space.current,
        on: under ? { key: under.key, index: under.index } : null,
      },
      setting,
    );
    hand.current = next.hand;
    next.wishes.forEach(carryOut);
    if (type === 'move' && device !== 'touch' && hand.current.hand.is === 'idle') onHover(at);
  };

  // React listens to the wheel passively; the page must not scroll while the slices do.
  useEffect(() => {
    const element = surface.current;
    if (!element) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const lines = event.deltaMode === 1 ? 34 : 1;
      const box = element.getBoundingClientRect();
      const { shiftKey: shift, altKey: alt, ctrlKey: ctrl } = event;
      if (!shift && !alt && !ctrl && !setting.windowing) {
        const next = wheelSlices(event.deltaY * lines, turned.current);
        turned.current = next.rest;
        return go(next.by);
      }
      const at = { x: event.clientX - box.left, y: event.clientY - box.top };
      carryOut(
        wheelWish({ dx: event.deltaX * lines, dy: event.deltaY * lines, at, shift, alt, ctrl }, setting.windowing),
      );
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  });

  return {
    surface: {
      onPointerDown: (e: PointerEvent<HTMLElement>) => onPointer('down', e),
      onPointerMove: (e: PointerEvent<HTMLElement>) => onPointer('move', e),
      onPointerUp: (e: PointerEvent<HTMLElement>) => onPointer('up', e),
      onPointerCancel: (e: PointerEvent<HTMLElement>) => onPointer('cancel', e),
      onPointerLeave: () => {
        if (hand.current.hand.is === 'idle') onHover(null);
      },
      onContextMenu: (e: { preventDefault(): void }) => e.preventDefault(),
    },
    /** The space bar held makes every drag move the picture; true = the key was that. */
    onSpace: (event: KeyboardEvent, held: boolean): boolean => {
      if (event.key !== ' ') return false;
      space.current = held;
      if (held) event.preventDefault();
      return true;
    },
  };
}
