/** Which of the film's values is black and which is white on the screen. */
export interface GreyWindow {
  readonly low: number;
  readonly high: number;
  /** Black and white changed over. */
  readonly inverted: boolean;
}

/** Narrowest window: below it every film turns to two tones. */
const NARROWEST = 2;

/**
 * Screen colour of each of the 65536 values of a film, as little-endian RGBA in one number: grey rises in
 * a straight line from `low` (0) to `high` (255).
 */
export function greyTable({ low, high, inverted }: GreyWindow): Uint32Array {
  const table = new Uint32Array(65536);
  const span = Math.max(high - low, 1);
  for (let value = 0; value < table.length; value++) {
    const share = Math.min(Math.max((value - low) / span, 0), 1);
    const grey = Math.round(255 * (inverted ? 1 - share : share));
    table[value] = (0xff000000 | (grey << 16) | (grey << 8) | grey) >>> 0;
  }
  return table;
}

/**
 * The window after a drag of `dx`, `dy` screen pixels: to the right widens (less contrast), downwards
 * darkens. `range` is the span of the film's values; a drag of 500 pixels goes once across it.
 */
export function dragWindow(window: GreyWindow, by: { dx: number; dy: number }, range: number): GreyWindow {
  const step = range / 500;
  const width = Math.max(window.high - window.low + by.dx * step, NARROWEST);
  const level = (window.high + window.low) / 2 + by.dy * step;
  return { ...window, low: level - width / 2, high: level + width / 2 };
}

/** The window on another film that has been changed as `grey` was from `start`; `own` = where that film's began. */
export function greyAlike(
  grey: GreyWindow,
  { start, own }: { readonly start: GreyWindow; readonly own: GreyWindow },
): GreyWindow {
  const times = (own.high - own.low) / Math.max(start.high - start.low, NARROWEST);
  const carried = (value: number): number => own.low + (value - start.low) * times;
  return { low: carried(grey.low), high: carried(grey.high), inverted: grey.inverted };
}
