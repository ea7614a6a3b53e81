import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { DataSet, Element } from '../dicom/data-set.ts';
import type { PixelLayout } from './layout.ts';
import type { Samples } from './stored-samples.ts';

/** Uncompressed pixel data of the first frame; a view of the file's memory where the machine's byte order allows. */
export function rawSamples(set: DataSet, element: Element, layout: PixelLayout): Outcome<Samples> {
  const { rows, columns, samples, bitsAllocated, photometric, planar } = layout;
  // Of 4:2:2 colour two pixels share their colour samples, so a pixel takes two of them instead of three.
  const count = rows * columns * (photometric === 'YBR_FULL_422' ? 2 : samples);
  const length = (count * bitsAllocated) / 8;
  if (element.length < length) {
    return cannot({
      code: 'pixels-too-few',
      message: `The pixel data has ${element.length} bytes; ${columns} x ${rows} pixels of ${bitsAllocated} bits need ${length}.`,
      field: '(7FE0,0010)',
      mend: 'Export the film again from the archive.',
    });
  }
  const bytes = set.bytes.subarray(element.at, element.at + length);
  const data =
    bitsAllocated === 16
      ? words(bytes, set.encoding.littleEndian)
      : element.vr === 'OW' && !set.encoding.littleEndian
        ? swapped(set.bytes.subarray(element.at, element.at + length + (length % 2)))
        : bytes;
  return ok({ data, planar, photometric, shift: layout.highBit + 1 - layout.bitsStored });
}

const LITTLE_MACHINE = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

export function words(bytes: Uint8Array, littleEndian: boolean): Uint16Array {
  if (littleEndian !== LITTLE_MACHINE) return new Uint16Array(swapped(bytes).buffer);
  const aligned = bytes.byteOffset % 2 === 0 ? bytes : bytes.slice();
  return new Uint16Array(aligned.buffer, aligned.byteOffset, aligned.length >> 1);
}

function swapped(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(bytes.length);
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    out[i] = bytes[i + 1] as number;
    out[i + 1] = bytes[i] as number;
  }
  return out;
}
