import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { DataSet, Element, Piece } from '../dicom/data-set.ts';

/**
 * Bytes of the first frame of encapsulated pixel data: all fragments of a single frame, those before
 * the second frame's offset where the table gives it, else one fragment a frame, else up to the next
 * start of a code stream. Source: DICOM PS3.5 A.4.
 */
export function firstFrame(set: DataSet, element: Element, frames: number): Outcome<Uint8Array> {
  const fragments = element.fragments ?? [];
  const first = fragments[0];
  if (!first) return EMPTY;
  const mine = frames === 1 ? fragments : ofFirst(set, element, fragments);
  if (mine.length === 1) return ok(slice(set, first));
  const whole = new Uint8Array(mine.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of mine) {
    whole.set(slice(set, piece), at);
    at += piece.length;
  }
  return ok(whole);
}

function ofFirst(set: DataSet, element: Element, fragments: readonly Piece[]): readonly Piece[] {
  const first = fragments[0] as Piece;
  const second = element.frameOffsets?.[1];
  // Offsets count from the first item tag behind the table, eight bytes before its value.
  const next =
    second === undefined
      ? fragments.findIndex((piece, i) => i > 0 && startsStream(slice(set, piece)))
      : fragments.findIndex((piece) => piece.at - first.at >= second);
  return fragments.slice(0, next === -1 ? 1 : Math.max(next, 1));
}

const slice = (set: DataSet, piece: Piece) => set.bytes.subarray(piece.at, piece.at + piece.length);

/** JPEG and JPEG-LS start with FF D8, JPEG 2000 with FF 4F. */
const startsStream = (bytes: Uint8Array) => bytes[0] === 0xff && (bytes[1] === 0xd8 || bytes[1] === 0x4f);

const EMPTY = cannot({
  code: 'pixels-missing',
  message: 'The pixel data is empty.',
  field: '(7FE0,0010)',
  mend: 'Export the film again from the archive.',
});
