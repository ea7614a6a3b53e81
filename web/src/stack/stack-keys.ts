import { type ArrowsMove, type KeyPress, type KeyWish, keyWish } from '../gestures/keys.ts';
import type { WindowName } from './slice-windows.ts';

/** What a key does over a stack. */
export type StackKeyWish =
  | KeyWish
  /** Slices to go by, towards the head +. */
  | { readonly kind: 'slices'; readonly by: number }
  | { readonly kind: 'end'; readonly which: 'first' | 'last' }
  | { readonly kind: 'named-window'; readonly name: WindowName };

const MANY = 10;

const SLICES: Readonly<Record<string, number>> = { PageUp: 1, PageDown: -1 };
const WINDOWS: Readonly<Record<string, WindowName>> = { '1': 'bone', '2': 'metal', '3': 'soft' };

/**
 * What a key press asks for over a stack. Page up and down go by one slice, with Shift by ten, whatever is in hand; the
 * upright arrows do so where nothing else claims them; Home and End go to the lowest and highest slice; 1, 2 and 3
 * choose the grey window; the rest is as over a film.
 */
export function stackKeyWish(press: KeyPress, arrows: ArrowsMove): StackKeyWish | null {
  if (press.ctrl) return null;
  const times = press.shift ? MANY : 1;
  const page = SLICES[press.key];
  if (page) return { kind: 'slices', by: page * times };
  if (press.key === 'Home') return { kind: 'end', which: 'first' };
  if (press.key === 'End') return { kind: 'end', which: 'last' };
  if (arrows === 'film' && press.key === 'ArrowUp') return { kind: 'slices', by: times };
  if (arrows === 'film' && press.key === 'ArrowDown') return { kind: 'slices', by: -times };
  const name = WINDOWS[press.key];
  return name ? { kind: 'named-window', name } : keyWish(press, arrows);
}
