import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { type CodeStream, codeStream } from '../codec/code-stream.ts';
import { HTJ2K, JPEG_2000, JPEG_BASELINE, JPEG_LS } from '../codec/codecs.ts';
import { decodeLosslessJpeg } from '../codec/jpeg-lossless.ts';
import { unpackRle } from '../codec/rle.ts';
import { discardDecoder, startDecoder, type WasmCodec } from '../codec/wasm-codec.ts';
import type { TransferSyntax } from '../dicom/transfer-syntax.ts';
import type { PixelLayout } from './layout.ts';
import { words } from './raw.ts';
import type { Samples } from './stored-samples.ts';

/** Largest compressed film, in pixels: the decoders need several times its size. */
export const MAX_PACKED_PIXELS = 150_000_000;

/**
 * Unpacks one compressed frame. What the stream says of itself is held against the file first, so that
 * no decoder runs on a size, kind or depth that the file did not announce.
 */
export function unpackFrame(frame: Uint8Array, layout: PixelLayout, syntax: TransferSyntax): Outcome<Samples> {
  const { rows, columns } = layout;
  if (rows * columns > MAX_PACKED_PIXELS) {
    return refuse(
      `has ${columns} x ${rows} pixels; compressed films are read up to ${MAX_PACKED_PIXELS / 1e6} million`,
    );
  }
  if (syntax.packing === 'rle') return fromRle(frame, layout);
  const stream = codeStream(frame);
  if (!stream) return refuse('is damaged: its compressed pixel data does not start as it should');
  const contradiction = contradicts(stream, layout, syntax);
  if (contradiction) return refuse(contradiction);
  switch (syntax.packing) {
    case 'jpeg-lossless':
      return fromLosslessJpeg(frame, layout);
    case 'jpeg-baseline':
      return fromWasm(JPEG_BASELINE, withColourMarker(frame, stream, layout), layout);
    case 'jpeg-ls':
      return fromWasm(JPEG_LS, frame, layout);
    case 'jpeg-2000':
      return fromWasm(JPEG_2000, frame, layout);
    case 'htj2k':
      return fromWasm(HTJ2K, frame, layout);
    default:
      return refuse(`is packed as ${syntax.name}, which is not read here`);
  }
}

const KINDS: Readonly<Partial<Record<TransferSyntax['packing'], CodeStream['kind']>>> = {
  'jpeg-baseline': 'jpeg-baseline',
  'jpeg-lossless': 'jpeg-lossless',
  'jpeg-ls': 'jpeg-ls',
  'jpeg-2000': 'jpeg-2000',
  htj2k: 'jpeg-2000',
};

function contradicts(stream: CodeStream, layout: PixelLayout, syntax: TransferSyntax): string | undefined {
  if (stream.kind !== KINDS[syntax.packing]) return `says ${syntax.name}, but its pixel data is ${stream.kind}`;
  if (stream.rows !== layout.rows || stream.columns !== layout.columns) {
    return `says ${layout.columns} x ${layout.rows} pixels, its compressed data ${stream.columns} x ${stream.rows}`;
  }
  if (stream.components !== layout.samples) {
    return `says ${layout.samples} samples a pixel, its compressed data ${stream.components}`;
  }
  if (stream.bits > layout.bitsAllocated) return `has ${stream.bits} bits a pixel in room for ${layout.bitsAllocated}`;
  return undefined;
}

/** Byte planes, most significant first, put together to samples plane by plane. */
function fromRle(frame: Uint8Array, layout: PixelLayout): Outcome<Samples> {
  const { samples, bitsAllocated, photometric } = layout;
  const size = layout.rows * layout.columns;
  const width = bitsAllocated / 8;
  const planes = unpackRle(frame, samples * width, size);
  if (!planes.ok) return planes;
  const data = width === 1 ? new Uint8Array(size * samples) : new Uint16Array(size * samples);
  for (let s = 0; s < samples; s++) {
    const high = planes.value[s * width] as Uint8Array;
    if (width === 1) {
      data.set(high, s * size);
      continue;
    }
    const low = planes.value[s * width + 1] as Uint8Array;
    for (let i = 0, to = s * size; i < size; i++, to++) data[to] = ((high[i] as number) << 8) | (low[i] as number);
  }
  return ok({ data, planar: true, photometric, shift: layout.highBit + 1 - layout.bitsStored });
}

function fromLosslessJpeg(frame: Uint8Array, layout: PixelLayout): Outcome<Samples> {
  const decoded = decodeLosslessJpeg(frame);
  if (!decoded.ok) return decoded;
  const { samples } = decoded.value;
  const data = layout.bitsAllocated === 8 ? new Uint8Array(samples) : samples;
  return ok({ data, planar: false, photometric: layout.photometric, shift: 0 });
}

function fromWasm(codec: WasmCodec, frame: Uint8Array, layout: PixelLayout): Outcome<Samples> {
  const { rows, columns, samples } = layout;
  // The decoders signal damage by throwing; this is the one place where that becomes an outcome.
  try {
    const decoder = startDecoder(codec);
    decoder.getEncodedBuffer(frame.length).set(frame);
    decoder.decode();
    const info = decoder.getFrameInfo();
    const planar = samples > 1 && decoder.getInterleaveMode?.() === 0;
    // Some decoders hand out clamped arrays.
    const bytes = new Uint8Array(decoder.getDecodedBuffer());
    decoder.delete();
    const width = info.bitsPerSample > 8 ? 2 : 1;
    if (info.width !== columns || info.height !== rows || bytes.length < rows * columns * samples * width) {
      return refuse('is damaged: its compressed pixel data holds less than it says');
    }
    const photometric = samples === 1 ? layout.photometric : 'RGB';
    return ok({ data: width === 2 ? words(bytes, true) : bytes, planar, photometric, shift: 0 });
  } catch {
    discardDecoder(codec);
    return refuse('is damaged: its compressed pixel data cannot be unpacked');
  }
}

/**
 * The JPEG decoder turns YCbCr into RGB after the stream's own markers. Where the stream says nothing,
 * the photometric interpretation decides, and is written into the stream as an Adobe marker.
 */
function withColourMarker(frame: Uint8Array, stream: CodeStream, layout: PixelLayout): Uint8Array {
  if (layout.samples === 1 || stream.adobeTransform !== undefined) return frame;
  const transform = layout.photometric === 'RGB' ? 0 : 1;
  const marker = [0xff, 0xee, 0, 14, 0x41, 0x64, 0x6f, 0x62, 0x65, 0, 100, 0, 0, 0, 0, transform];
  // A JFIF marker would overrule it.
  const start = stream.jfif ? 4 + (((frame[4] as number) << 8) | (frame[5] as number)) : 2;
  const marked = new Uint8Array(2 + marker.length + frame.length - start);
  marked.set([0xff, 0xd8]);
  marked.set(marker, 2);
  marked.set(frame.subarray(start), 2 + marker.length);
  return marked;
}

const refuse = (what: string) =>
  cannot({
    code: 'pixels-not-readable',
    message: `The film ${what}.`,
    field: '(7FE0,0010)',
    mend: 'Export it again uncompressed (Explicit VR Little Endian).',
  });
