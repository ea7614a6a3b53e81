import type { PixelMap } from '@gapline/core/plane/register-films.ts';
import type { Level } from './pyramid.ts';

/**
 * Where the pixel centres of the target lie on the film, film pixels: `x = left + column * stepX + row * slantX`,
 * `y = top + row * stepY + column * slantY`.
 */
export interface Sampling {
  readonly left: number;
  readonly top: number;
  /** Film pixels from one target pixel to the next; negative across when the film is shown mirrored. */
  readonly stepX: number;
  readonly stepY: number;
  /** What the film is turned by; absent = upright. */
  readonly slantX?: number;
  readonly slantY?: number;
}

/** The same target on another film, given where each pixel of the first film lies on it. */
export function samplingThrough(s: Sampling, { xx, xy, yx, yy, x0, y0 }: PixelMap): Sampling {
  const { slantX = 0, slantY = 0 } = s;
  return {
    left: xx * s.left + xy * s.top + x0,
    top: yx * s.left + yy * s.top + y0,
    stepX: xx * s.stepX + xy * slantY,
    slantY: yx * s.stepX + yy * slantY,
    slantX: xx * slantX + xy * s.stepY,
    stepY: yx * slantX + yy * s.stepY,
  };
}

export interface Target {
  readonly width: number;
  readonly height: number;
  readonly colours: Uint32Array;
}

/** Colour outside of the film: the dark of the light box. */
export const OUTSIDE = 0xff121416;

/** Level whose pixels are nearest in size to the target's, but not coarser. */
export const levelFor = (step: number, levels: number): number =>
  Math.min(Math.max(Math.floor(Math.log2(Math.max(Math.abs(step), 1))), 0), levels - 1);

/** Left neighbour and weight of the right one (0 to 256) for every target column or row; -1 = outside. */
interface Taps {
  readonly first: Int32Array;
  readonly second: Int32Array;
  readonly weight: Int32Array;
}

function taps(start: number, step: number, count: number, of: { size: number; level: number; base: number }): Taps {
  const first = new Int32Array(count);
  const second = new Int32Array(count);
  const weight = new Int32Array(count);
  const factor = 2 ** of.level;
  const shift = (factor - 1) / 2;
  for (let i = 0; i < count; i++) {
    const at = start + i * step;
    if (at < -0.5 || at >= of.base - 0.5) {
      first[i] = -1;
      continue;
    }
    const within = Math.min(Math.max((at - shift) / factor, 0), of.size - 1);
    const left = Math.floor(within);
    first[i] = left;
    second[i] = Math.min(left + 1, of.size - 1);
    weight[i] = Math.round((within - left) * 256);
  }
  return { first, second, weight };
}

/**
 * Paints the part of a film that the sampling asks for: bilinear between the pixels of the fitting
 * pyramid level, then through the grey table. Pixel centres of the film lie at whole numbers.
 */
export function paint(target: Target, levels: readonly Level[], sampling: Sampling, table: Uint32Array): void {
  const { stepX, stepY, slantX = 0, slantY = 0 } = sampling;
  const level = levelFor(Math.min(Math.hypot(stepX, slantY), Math.hypot(stepY, slantX)), levels.length);
  const base = levels[0];
  const source = levels[level];
  if (!base || !source) return;
  if (slantX !== 0 || slantY !== 0) {
    paintTurned(target, { source, base, level, sampling, table });
    return;
  }
  const across = taps(sampling.left, sampling.stepX, target.width, { size: source.width, level, base: base.width });
  const down = taps(sampling.top, sampling.stepY, target.height, { size: source.height, level, base: base.height });
  for (let y = 0; y < target.height; y++) {
    const row = y * target.width;
    if (down.first[y]! < 0) target.colours.fill(OUTSIDE, row, row + target.width);
    else paintRow(target.colours.subarray(row, row + target.width), { source, across, down, y, table });
  }
}

interface RowOf {
  readonly source: Level;
  readonly across: Taps;
  readonly down: Taps;
  readonly y: number;
  readonly table: Uint32Array;
}

function paintRow(colours: Uint32Array, { source, across, down, y, table }: RowOf): void {
  const { first, second, weight } = across;
  const { values } = source;
  const upper = down.first[y]! * source.width;
  const lower = down.second[y]! * source.width;
  const wy = down.weight[y]!;
  for (let x = 0; x < colours.length; x++) {
    const a = first[x]!;
    if (a < 0) {
      colours[x] = OUTSIDE;
      continue;
    }
    const b = second[x]!;
    const w = weight[x]!;
    const top = values[upper + a]! * (256 - w) + values[upper + b]! * w;
    const bottom = values[lower + a]! * (256 - w) + values[lower + b]! * w;
    // Shifted in two steps: 16 bit times 256 times 256 would not fit a 32-bit integer.
    colours[x] = table[((top >> 8) * (256 - wy) + (bottom >> 8) * wy) >> 8]!;
  }
}

interface TurnedOf {
  readonly source: Level;
  readonly base: Level;
  readonly level: number;
  readonly sampling: Sampling;
  readonly table: Uint32Array;
}

/** The same where a row of the target runs across rows of the film: every pixel finds its own four. */
function paintTurned(target: Target, { source, base, level, sampling, table }: TurnedOf): void {
  const { left, top, stepX, stepY, slantX = 0, slantY = 0 } = sampling;
  const { values, width } = source;
  const { colours } = target;
  const factor = 2 ** level;
  const shift = (factor - 1) / 2;
  const [lastX, lastY] = [width - 1, source.height - 1];
  const [endX, endY] = [base.width - 0.5, base.height - 0.5];
  for (let row = 0; row < target.height; row++) {
    let to = row * target.width;
    for (let column = 0; column < target.width; column++, to++) {
      const x = left + column * stepX + row * slantX;
      const y = top + row * stepY + column * slantY;
      if (x < -0.5 || y < -0.5 || x >= endX || y >= endY) {
        colours[to] = OUTSIDE;
        continue;
      }
      const inX = Math.min(Math.max((x - shift) / factor, 0), lastX);
      const inY = Math.min(Math.max((y - shift) / factor, 0), lastY);
      const [x0, y0] = [inX | 0, inY | 0];
      const right = x0 < lastX ? 1 : 0;
      const upper = y0 * width + x0;
      const lower = y0 < lastY ? upper + width : upper;
      const [wx, wy] = [inX - x0, inY - y0];
      const high = values[upper]! + (values[upper + right]! - values[upper]!) * wx;
      const low = values[lower]! + (values[lower + right]! - values[lower]!) * wx;
      colours[to] = table[(high + (low - high) * wy) | 0]!;
    }
  }
}
