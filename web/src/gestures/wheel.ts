import type { Place } from '../film/viewport.ts';
import type { Wish } from './pointer.ts';

/** A turn of the wheel or a stroke on the touch pad over the film, screen pixels. */
export interface Wheel {
  readonly dx: number;
  readonly dy: number;
  readonly at: Place;
  readonly shift: boolean;
  readonly alt: boolean;
  /** Also what a pinch on a touch pad says. */
  readonly ctrl: boolean;
}

const ZOOM_STEP = 0.0016;
/** A pinch on a touch pad comes in far smaller steps than a wheel. */
const PINCH_STEP = 0.01;
const SMALL = 30;
const GREY_STEP = 0.25;

/**
 * What the wheel asks for: zoom about the pointer; with Shift the film moves; with Alt, or in grey mode, brightness, and
 * there with Shift contrast.
 */
export function wheelWish({ dx, dy, at, shift, alt, ctrl }: Wheel, windowing: boolean): Wish {
  // Some systems turn the wheel sideways themselves while Shift is held.
  const way = dy === 0 ? dx : dy;
  if (alt || windowing)
    return shift ? { kind: 'window', dx: way * GREY_STEP, dy: 0 } : { kind: 'window', dx: 0, dy: way * GREY_STEP };
  if (shift) return dy === 0 ? { kind: 'pan', dx: -dx, dy: 0 } : { kind: 'pan', dx: -dx, dy: -dy };
  const step = ctrl && Math.abs(way) < SMALL ? PINCH_STEP : ZOOM_STEP;
  return { kind: 'zoom', factor: Math.exp(-way * step), at };
}
