import type { FilmPixels } from '../film.ts';
import type { PixelLayout } from './layout.ts';
import type { Samples } from './stored-samples.ts';

/** Stored values of a grey film: shifted to bit 0, bits beyond Bits Stored removed, sign extended (PS3.5 8.1.1). */
export function storedValues(samples: Samples, layout: PixelLayout): FilmPixels {
  const { data, shift } = samples;
  const { bitsStored, signed } = layout;
  if (signed) return signExtended(data, shift, bitsStored);
  const mask = 2 ** bitsStored - 1;
  const room = data.BYTES_PER_ELEMENT * 8;
  if (shift === 0 && (bitsStored === room || allWithin(data, mask))) return data;
  return data.map((v) => (v >> shift) & mask);
}

/** A plain loop: twenty million calls of a function take longer than reading the film. */
function allWithin(data: Uint8Array | Uint16Array, most: number): boolean {
  for (let i = 0; i < data.length; i++) if ((data[i] as number) > most) return false;
  return true;
}

function signExtended(data: Uint8Array | Uint16Array, shift: number, bits: number): FilmPixels {
  if (shift === 0 && bits === data.BYTES_PER_ELEMENT * 8) {
    return data instanceof Uint16Array
      ? new Int16Array(data.buffer, data.byteOffset, data.length)
      : new Int8Array(data.buffer, data.byteOffset, data.length);
  }
  const out = bits > 8 ? new Int16Array(data.length) : new Int8Array(data.length);
  const up = 32 - bits;
  for (let i = 0; i < data.length; i++) out[i] = (((data[i] as number) >> shift) << up) >> up;
  return out;
}

/** Luma of a colour picture (ITU-R BT.601, the weights of YBR_FULL), in the samples' own depth. */
export function luma(samples: Samples, layout: PixelLayout): FilmPixels {
  const { data, planar, photometric } = samples;
  const size = layout.rows * layout.columns;
  const grey = data instanceof Uint16Array ? new Uint16Array(size) : new Uint8Array(size);
  if (photometric === 'YBR_FULL_422' && !planar) {
    // Two lumas, then the two colour differences that they share.
    for (let i = 0; i < size; i++) grey[i] = data[(i >> 1) * 4 + (i & 1)] as number;
    return grey;
  }
  const step = planar ? 1 : 3;
  const [g, b] = planar ? [size, 2 * size] : [1, 2];
  if (photometric !== 'RGB') {
    for (let i = 0; i < size; i++) grey[i] = data[i * step] as number;
    return grey;
  }
  for (let i = 0, at = 0; i < size; i++, at += step) {
    grey[i] = 0.299 * (data[at] as number) + 0.587 * (data[at + g] as number) + 0.114 * (data[at + b] as number) + 0.5;
  }
  return grey;
}
