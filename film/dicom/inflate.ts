import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { Inflate } from 'pako';

/** Half a gibibyte: ten times the largest film. A file that unpacks to more is refused unread. */
export const MAX_INFLATED = 512 * 1024 * 1024;

/** Unpacks a deflated data set (PS3.5 A.5), stopping at {@link MAX_INFLATED}. */
export function inflateDataSet(packed: Uint8Array, limit = MAX_INFLATED): Outcome<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate({ raw: true, chunkSize: 1 << 20 });
  inflate.onData = (chunk) => {
    if (!(chunk instanceof Uint8Array)) return;
    size += chunk.length;
    if (size <= limit) chunks.push(chunk);
  };
  // Fed in pieces, so that a bomb is noticed after the first of them.
  for (let at = 0; at < packed.length && !inflate.ended && size <= limit; at += PIECE) {
    inflate.push(packed.subarray(at, at + PIECE), at + PIECE >= packed.length);
    if (inflate.err) return DAMAGED;
  }
  if (size > limit) return TOO_LARGE;
  if (!inflate.ended) return DAMAGED;
  const whole = new Uint8Array(size);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return ok(whole);
}

/** One piece unpacks to 16 MB at most, deflate's ratio being 1032 to 1. */
const PIECE = 16 * 1024;

const DAMAGED = cannot({
  code: 'deflate-damaged',
  message: 'The DICOM file is packed (deflated) and cannot be unpacked: it is damaged or cut short.',
  mend: 'Export the film again from the archive.',
});

const TOO_LARGE = cannot({
  code: 'deflate-too-large',
  message: 'The DICOM file unpacks to more than 512 MB, more than any film.',
  mend: 'Export the film again without compression.',
});
