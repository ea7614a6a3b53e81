import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';

/** A run yields at most 128 bytes for 2. */
const MOST_GAIN = 64;

/**
 * Unpacks one RLE frame into its byte planes: sample by sample, each sample's most significant byte first.
 * Source: DICOM PS3.5 annex G (a header of 16 offsets, then PackBits segments).
 * Refuses a number of segments other than asked, and segments that end early.
 */
export function unpackRle(frame: Uint8Array, planes: number, planeBytes: number): Outcome<Uint8Array[]> {
  if (frame.length < 64) return DAMAGED;
  const view = new DataView(frame.buffer, frame.byteOffset, frame.byteLength);
  if (view.getUint32(0, true) !== planes || planeBytes * planes > frame.length * MOST_GAIN) return DAMAGED;
  const starts = Array.from({ length: planes }, (_, i) => view.getUint32(4 + 4 * i, true));
  const unpacked: Uint8Array[] = [];
  for (const [i, start] of starts.entries()) {
    const end = starts[i + 1] ?? frame.length;
    if (start < 64 || end < start || end > frame.length) return DAMAGED;
    const plane = new Uint8Array(planeBytes);
    if (!unpackBits(frame.subarray(start, end), plane)) return DAMAGED;
    unpacked.push(plane);
  }
  return ok(unpacked);
}

/** PackBits; true when the plane was filled. */
function unpackBits(packed: Uint8Array, plane: Uint8Array): boolean {
  let to = 0;
  for (let at = 0; at < packed.length && to < plane.length; ) {
    const n = packed[at] as number;
    if (n < 128) {
      const run = packed.subarray(at + 1, at + 2 + n);
      plane.set(to + run.length > plane.length ? run.subarray(0, plane.length - to) : run, to);
      to += run.length;
      at += 2 + n;
    } else if (n > 128) {
      const length = 257 - n;
      if (at + 1 >= packed.length) return false;
      plane.fill(packed[at + 1] as number, to, to + length);
      to += length;
      at += 2;
    } else {
      at += 1;
    }
  }
  return to >= plane.length;
}

const DAMAGED = cannot({
  code: 'rle-damaged',
  message: 'The pixel data (RLE) is damaged or cut short.',
  field: '(7FE0,0010)',
  mend: 'Export the film again from the archive.',
});
