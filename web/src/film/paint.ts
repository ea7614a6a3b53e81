import type { Level } from './pyramid.ts';

/** Where the pixel centres of the target lie on the film: `x = left + column * stepX`, film pixels. */
export interface Sampling {
  readonly left: number;
  readonly top: number;
  /** Film pixels from one target pixel to the next; negative across when the film is shown mirrored. */
  readonly stepX: number;
  readonly stepY: number;
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
  const level = levelFor(Math.min(Math.abs(sampling.stepX), Math.abs(sampling.stepY)), levels.length);
  const base = levels[0];
  const source = levels[level];
  if (!base || !source) return;
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
