import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';

/** Samples in scan order: components interleaved pixel by pixel. */
export interface LosslessJpeg {
  readonly rows: number;
  readonly columns: number;
  readonly components: number;
  readonly bits: number;
  readonly samples: Uint16Array;
}

interface Frame {
  readonly rows: number;
  readonly columns: number;
  readonly bits: number;
  readonly componentIds: readonly number[];
}

interface Scan {
  /** Huffman table of each component. */
  readonly tables: readonly HuffmanTable[];
  readonly predictor: number;
  readonly pointTransform: number;
  readonly restartInterval: number;
}

/** Code length in the high byte, value in the low byte, looked up by the next 16 bits of the stream. */
type HuffmanTable = Uint16Array;

/**
 * Decodes a lossless Huffman JPEG (process 14, any predictor): 2 to 16 bits, one interleaved scan.
 * Source: ISO/IEC 10918-1 (ITU-T T.81) annexes F.2.2 and H.
 * Refuses subsampled components, several scans, missing tables and streams that end early.
 */
export function decodeLosslessJpeg(bytes: Uint8Array): Outcome<LosslessJpeg> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tables: (HuffmanTable | undefined)[] = [];
  let frame: Frame | undefined;
  let restartInterval = 0;
  let at = 2;
  while (at + 4 <= bytes.length) {
    const marker = view.getUint16(at);
    if (marker === 0xffff) {
      at += 1;
      continue;
    }
    const length = view.getUint16(at + 2);
    const body = bytes.subarray(at + 4, at + 2 + length);
    if (marker < 0xff01 || length < 2 || body.length < length - 2) return DAMAGED;
    at += 2 + length;
    if (marker === 0xffc4 && !readTables(body, tables)) return DAMAGED;
    if (marker === 0xffc3) frame = readFrame(body);
    if (marker === 0xffdd && body.length >= 2) restartInterval = ((body[0] as number) << 8) | (body[1] as number);
    if (marker === 0xffda) {
      const scan = frame && readScan(body, frame, tables, restartInterval);
      return frame && scan ? decodeScan(bytes.subarray(at), frame, scan) : DAMAGED;
    }
  }
  return DAMAGED;
}

function readFrame(body: Uint8Array): Frame | undefined {
  const [bits = 0, r1 = 0, r0 = 0, c1 = 0, c0 = 0, count = 0] = body;
  const components = Array.from({ length: count }, (_, i) => body.subarray(6 + 3 * i, 9 + 3 * i));
  if (bits < 2 || bits > 16 || components.some((c) => c.length < 3 || c[1] !== 0x11)) return undefined;
  return { bits, rows: (r1 << 8) | r0, columns: (c1 << 8) | c0, componentIds: components.map((c) => c[0] as number) };
}

/** Expands each table of a DHT segment to one entry for every 16-bit look-ahead. */
function readTables(body: Uint8Array, tables: (HuffmanTable | undefined)[]): boolean {
  for (let at = 0; at < body.length; ) {
    const slot = body[at] as number;
    const counts = body.subarray(at + 1, at + 17);
    const total = counts.reduce((sum, n) => sum + n, 0);
    const values = body.subarray(at + 17, at + 17 + total);
    if (counts.length < 16 || values.length < total || slot > 3) return false;
    const table = new Uint16Array(0x10000);
    let code = 0;
    let next = 0;
    for (let length = 1; length <= 16; length++) {
      for (let i = 0; i < (counts[length - 1] as number); i++, code++, next++) {
        const from = code << (16 - length);
        if (from >= 0x10000) return false;
        table.fill((length << 8) | (values[next] as number), from, from + (1 << (16 - length)));
      }
      code <<= 1;
    }
    tables[slot] = table;
    at += 17 + total;
  }
  return true;
}

function readScan(
  body: Uint8Array,
  frame: Frame,
  tables: readonly (HuffmanTable | undefined)[],
  restartInterval: number,
): Scan | undefined {
  const count = body[0] ?? 0;
  if (count !== frame.componentIds.length || body.length < 4 + 2 * count) return undefined;
  const chosen = Array.from({ length: count }, (_, i) => tables[(body[2 + 2 * i] as number) >> 4]);
  const predictor = body[1 + 2 * count] as number;
  const pointTransform = (body[3 + 2 * count] as number) & 15;
  if (predictor < 1 || predictor > 7 || pointTransform >= frame.bits) return undefined;
  const known = chosen.filter((t): t is HuffmanTable => t !== undefined);
  return known.length === count ? { tables: known, predictor, pointTransform, restartInterval } : undefined;
}

function decodeScan(bytes: Uint8Array, frame: Frame, scan: Scan): Outcome<LosslessJpeg> {
  const { rows, columns, bits } = frame;
  const components = frame.componentIds.length;
  // Every sample takes at least one bit, so a header that promises more is refused before memory is taken.
  if (rows * columns * components > bytes.length * 8) return DAMAGED;
  // Restart intervals are whole lines (H.1.1); anything else is no lossless JPEG.
  if (columns === 0 || scan.restartInterval % columns !== 0) return DAMAGED;
  const samples = new Uint16Array(rows * columns * components);
  const start = 1 << (bits - scan.pointTransform - 1);
  if (!addDifferences(new DifferenceStream(bytes), samples, { ...scan, line: columns * components, start, columns })) {
    return DAMAGED;
  }
  if (scan.pointTransform > 0) {
    for (let i = 0; i < samples.length; i++) samples[i] = (samples[i] as number) << scan.pointTransform;
  }
  return ok({ rows, columns, components, bits, samples });
}

interface Layout extends Scan {
  readonly columns: number;
  /** Samples of one line. */
  readonly line: number;
  /** Prediction of the very first sample, and of the first after a restart. */
  readonly start: number;
}

/** Fills the samples line by line; false when the stream ends, or breaks, before the last of them. */
function addDifferences(stream: DifferenceStream, samples: Uint16Array, layout: Layout): boolean {
  const { line, tables, predictor, start, columns, restartInterval } = layout;
  const n = tables.length;
  const linesToRestart = restartInterval / columns;
  for (let row = 0, i = 0; i < samples.length; row++) {
    const restarted = restartInterval > 0 && row > 0 && row % linesToRestart === 0;
    if (restarted) stream.restart();
    const first = row === 0 || restarted;
    for (const end = i + line; i < end; ) {
      const leftmost = i === end - line;
      for (let c = 0; c < n; c++, i++) {
        const left = leftmost ? 0 : (samples[i - n] as number);
        const above = first ? 0 : (samples[i - line] as number);
        const before = first
          ? leftmost
            ? start
            : left
          : leftmost
            ? above
            : predict(predictor, left, above, samples[i - line - n] as number);
        samples[i] = before + stream.next(tables[c] as HuffmanTable);
      }
    }
    if (stream.failed) return false;
  }
  return true;
}

/** Table H.1: a is the sample to the left, b above, c above left. */
function predict(predictor: number, a: number, b: number, c: number): number {
  switch (predictor) {
    case 1:
      return a;
    case 2:
      return b;
    case 3:
      return c;
    case 4:
      return a + b - c;
    case 5:
      return a + ((b - c) >> 1);
    case 6:
      return b + ((a - c) >> 1);
    default:
      return (a + b) >> 1;
  }
}

/** Huffman-coded differences, bit by bit; past the end, or at a marker, it reads zeros and notes the failure. */
class DifferenceStream {
  failed = false;
  readonly #bytes: Uint8Array;
  #at = 0;
  #reservoir = 0;
  #held = 0;
  /** Bits in the reservoir that the stream did not hold. */
  #borrowed = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  next(table: HuffmanTable): number {
    while (this.#held < 16) this.#load();
    const entry = table[(this.#reservoir >> (this.#held - 16)) & 0xffff] as number;
    const length = entry >> 8;
    const size = entry & 0xff;
    this.#held -= length;
    if (length === 0 || size > 16) this.failed = true;
    const difference = size === 0 ? 0 : size === 16 ? 32768 : this.#signed(size);
    if (this.#held < this.#borrowed) this.failed = true;
    return difference;
  }

  /** Skips to behind the next restart marker. */
  restart(): void {
    const bytes = this.#bytes;
    while (
      this.#at + 1 < bytes.length &&
      !(bytes[this.#at] === 0xff && ((bytes[this.#at + 1] as number) & 0xf8) === 0xd0)
    ) {
      this.#at += 1;
    }
    this.#at += 2;
    this.#reservoir = this.#held = this.#borrowed = 0;
  }

  /** `size` bits as a signed difference (table F.2: the upper half is positive). */
  #signed(size: number): number {
    while (this.#held < size) this.#load();
    this.#held -= size;
    const raw = (this.#reservoir >> this.#held) & ((1 << size) - 1);
    return raw < 1 << (size - 1) ? raw - (1 << size) + 1 : raw;
  }

  #load(): void {
    const bytes = this.#bytes;
    const byte = this.#at < bytes.length ? (bytes[this.#at] as number) : 0;
    const marker = byte === 0xff && bytes[this.#at + 1] !== 0;
    if (this.#at >= bytes.length || marker) {
      this.#borrowed += 8;
      this.#reservoir = (this.#reservoir << 8) & 0xffffff;
    } else {
      this.#at += byte === 0xff ? 2 : 1;
      this.#reservoir = ((this.#reservoir << 8) | byte) & 0xffffff;
    }
    this.#held += 8;
  }
}

const DAMAGED = cannot({
  code: 'jpeg-damaged',
  message: 'The pixel data (lossless JPEG) is damaged or cut short.',
  field: '(7FE0,0010)',
  mend: 'Export the film again from the archive.',
});
