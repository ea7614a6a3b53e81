/** A key pressed while the film or one of its marks has the focus. */
export interface KeyPress {
  readonly key: string;
  readonly shift: boolean;
  readonly alt: boolean;
  readonly ctrl: boolean;
}

/** What a key does on the film. */
export type KeyWish =
  /** Screen pixels that the film moves by. */
  | { readonly kind: 'pan'; readonly dx: number; readonly dy: number }
  | { readonly kind: 'zoom'; readonly factor: number }
  /** Film pixels that the selected point moves by. */
  | { readonly kind: 'nudge'; readonly dx: number; readonly dy: number }
  /** Screen pixels that the crosshair moves by. */
  | { readonly kind: 'crosshair'; readonly dx: number; readonly dy: number }
  | { readonly kind: 'window'; readonly dx: number; readonly dy: number }
  /** Degrees that the film is turned by, clockwise. */
  | { readonly kind: 'turn'; readonly deg: number }
  | { readonly kind: 'place' | 'close' | 'remove' | 'leave' | 'fit' | 'reset' | 'upright' | 'invert' | 'window-mode' };

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

const PLAIN: Readonly<Record<string, KeyWish>> = {
  '+': { kind: 'zoom', factor: 1.25 },
  '=': { kind: 'zoom', factor: 1.25 },
  '-': { kind: 'zoom', factor: 0.8 },
  '0': { kind: 'fit' },
  f: { kind: 'fit' },
  r: { kind: 'reset' },
  i: { kind: 'invert' },
  w: { kind: 'window-mode' },
  '[': { kind: 'window', dx: -15, dy: 0 },
  ']': { kind: 'window', dx: 15, dy: 0 },
  ',': { kind: 'window', dx: 0, dy: 15 },
  '.': { kind: 'window', dx: 0, dy: -15 },
  c: { kind: 'close' },
  Enter: { kind: 'place' },
  Delete: { kind: 'remove' },
  Backspace: { kind: 'remove' },
  Escape: { kind: 'leave' },
};

/** Keys that turn the film clockwise, deg, and with Shift. */
const TURNS: Readonly<Record<string, readonly [number, number]>> = { t: [90, -90], q: [-1, -5], e: [1, 5] };

/** What the arrow keys move: a selected point, the crosshair while placing, else the film. */
export type ArrowsMove = 'point' | 'crosshair' | 'film';

/** What a key press asks for, or null where the key means nothing here. */
export function keyWish(press: KeyPress, arrows: ArrowsMove): KeyWish | null {
  if (press.ctrl) return null;
  const way = ARROWS[press.key];
  if (!way) {
    const key = press.key.length === 1 ? press.key.toLowerCase() : press.key;
    const turns = TURNS[key];
    return turns ? { kind: 'turn', deg: turns[press.shift ? 1 : 0] } : (PLAIN[key] ?? null);
  }
  const [x, y] = way;
  const by = (step: number) => ({ dx: x * step || 0, dy: y * step || 0 });
  if (arrows === 'point') return { kind: 'nudge', ...by(press.shift ? 10 : press.alt ? 0.1 : 1) };
  if (arrows === 'crosshair') return { kind: 'crosshair', ...by(press.shift ? 60 : press.alt ? 1 : 12) };
  // The film goes against the arrow, so that the view goes with it.
  return { kind: 'pan', ...by(press.shift ? -200 : -60) };
}
