import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import type { Place } from '../film/viewport.ts';
import type { Setting } from './hand.ts';
import { type MarkPoint, type Pointer, pointUnder, REACH } from './pointer.ts';
import type { Wheel } from './wheel.ts';

/** A hand over a picture: how it goes on after a pointer event, and whether it rests. */
export interface HandOf<Hand, Wish> {
  readonly idle: Hand;
  readonly isIdle: (hand: Hand) => boolean;
  readonly step: (
    hand: Hand,
    pointer: Pointer,
    setting: Setting,
  ) => { readonly hand: Hand; readonly wishes: readonly Wish[] };
  /** Screen pixels that a wheel moves by where it counts in lines. */
  readonly linePx: number;
}

export interface OverPicture<Wish> {
  readonly surface: RefObject<HTMLElement | null>;
  readonly setting: Setting;
  /** What can be grabbed, screen pixels; asked for when a pointer goes down. */
  readonly points: (device: Pointer['device']) => readonly (MarkPoint & { readonly at: Place })[];
  /** What a press takes hold of where no point is near. */
  readonly grab?: (at: Place) => MarkPoint | null;
  readonly carryOut: (wish: Wish) => void;
  readonly onWheel: (wheel: Wheel) => void;
  /** A pointer moves over the picture without being pressed. */
  readonly onHover: (at: Place | null) => void;
}

/** Brings the browser's pointers and wheel over a picture to a hand, and gives what the element listens with. */
export function usePointerHand<Hand, Wish>(of: HandOf<Hand, Wish>, over: OverPicture<Wish>) {
  const { surface, setting, points, grab, carryOut, onWheel, onHover } = over;
  const hand = useRef(of.idle);
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
    const next = of.step(
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
    if (type === 'move' && device !== 'touch' && of.isIdle(hand.current)) onHover(at);
  };

  // React listens to the wheel passively; the page must not scroll while the picture answers.
  useEffect(() => {
    const element = surface.current;
    if (!element) return;
    const listen = (event: WheelEvent): void => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      const lines = event.deltaMode === 1 ? of.linePx : 1;
      onWheel({
        dx: event.deltaX * lines,
        dy: event.deltaY * lines,
        at: { x: event.clientX - box.left, y: event.clientY - box.top },
        shift: event.shiftKey,
        alt: event.altKey,
        ctrl: event.ctrlKey,
      });
    };
    element.addEventListener('wheel', listen, { passive: false });
    return () => element.removeEventListener('wheel', listen);
  });

  return {
    surface: {
      onPointerDown: (e: PointerEvent<HTMLElement>) => onPointer('down', e),
      onPointerMove: (e: PointerEvent<HTMLElement>) => onPointer('move', e),
      onPointerUp: (e: PointerEvent<HTMLElement>) => onPointer('up', e),
      onPointerCancel: (e: PointerEvent<HTMLElement>) => onPointer('cancel', e),
      onPointerLeave: () => {
        if (of.isIdle(hand.current)) onHover(null);
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
