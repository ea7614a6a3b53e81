/** A place in a slice of the limb, mm: lateral, anterior. */
export type Place = readonly [number, number];

/** Tissue in Hounsfield units: textbook orders of magnitude; metal beyond the usual scale, as wide-scale series show it. */
export const AIR = -1000;
export const SOFT = 40;
export const SPONGE = 250;
export const CORTEX = 1400;
export const PLASTIC = 100;
export const METAL = 8000;

export const between = (v: number, from: number, to: number): boolean => v >= from && v <= to;

/** Below 1 within an ellipse about the origin. */
export const ellipse = ([x, y]: Place, a: number, b: number): number => (x / a) ** 2 + (y / b) ** 2;

/** A place in a frame that is turned counter-clockwise about a middle. */
export function turnedIn([x, y]: Place, frame: { readonly middle: Place; readonly turn: number }): Place {
  const [dx, dy] = [x - frame.middle[0], y - frame.middle[1]];
  const [c, s] = [Math.cos(frame.turn), Math.sin(frame.turn)];
  return [c * dx + s * dy, -s * dx + c * dy];
}

/** Bone as a shell of cortex round sponge, by the distance from its outline (inside negative); null outside. */
export const shell = (outside: number, cortexMm: number): number | null =>
  outside >= 0 ? null : outside > -cortexMm ? CORTEX : SPONGE;
