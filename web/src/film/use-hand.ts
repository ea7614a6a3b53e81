import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import { IDLE, type Setting, step } from '../gestures/hand.ts';
import { type MarkPoint, type Pointer, pointUnder, REACH, type Wish } from '../gestures/pointer.ts';
import { wheelWish } from '../gestures/wheel.ts';
import type { Place } from './viewport.ts';

interface Over {
  readonly surface: RefObject<HTMLElement | null>;
  readonly setting: Setting;
  /** What can be grabbed, screen pixels; asked for when a pointer goes down. */
  readonly points: (device: Pointer['device']) => readonly (MarkPoint & { readonly at: Place })[];
  /** What a press takes hold of where no point is near. */
  readonly grab?: (at: Place) => MarkPoint | null;
  readonly carryOut: (wish: Wish) => void;
  /** A pointer moves over the film without being pressed. */
  readonly onHover: (at: Place | null) => void;
}

/** Brings the browser's pointers and wheel over a film to its hand, and gives what the element listens with. */
export function useHand({ surface, setting, points, grab, carryOut, onHover }: Over) {
  const hand = useRef(IDLE);
  const space = useRef(false);

  const onPointer = (type: Pointer['type'], event: PointerEvent<HTMLElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const at = { x: event.clientX - box.left, y: event.clientY - box.top };
    const device = event.pointerType === 'touch' ? 'touch' : event.pointerType === 'pen' ? 'pen' : 'mouse';
    if (type === 'down') {
      event.currentTarget.setPointerCapture(event.pointerId);
      surface.current?.focus({ preventScroll: true });
    }
    const under = type === 'down' ? (pointUnder(points(device), at, REACH[device]) ?? grab?.(at) ?? null) : null;
    const next = step(
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
    if (type === 'move' && device !== 'touch' && hand.current.is === 'idle') onHover(at);
  };

  // React listens to the wheel passively; the page must not scroll while the film zooms.
  useEffect(() => {
    const element = surface.current;
    if (!element) return;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      const lines = event.deltaMode === 1 ? 16 : 1;
      const wish = wheelWish(
        {
          dx: event.deltaX * lines,
          dy: event.deltaY * lines,
          at: { x: event.clientX - box.left, y: event.clientY - box.top },
          shift: event.shiftKey,
          alt: event.altKey,
          ctrl: event.ctrlKey,
        },
        setting.windowing,
      );
      carryOut(wish);
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
        if (hand.current.is === 'idle') onHover(null);
      },
      onContextMenu: (e: { preventDefault(): void }) => e.preventDefault(),
    },
    /** The space bar held makes every drag move the film; true = the key was that. */
    onSpace: (event: KeyboardEvent, held: boolean): boolean => {
      if (event.key !== ' ') return false;
      space.current = held;
      if (held) event.preventDefault();
      return true;
    },
  };
}
