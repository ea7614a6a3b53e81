import { cannot, type Outcome, ok, type Warning } from '@gapline/core/measure/outcome.ts';
import { decode } from 'fast-png';
import { codeStream } from './codec/code-stream.ts';
import { transferSyntax } from './dicom/transfer-syntax.ts';
import type { Film, FilmPixels } from './film.ts';
import { luma } from './pixels/grey-values.ts';
import type { PixelLayout } from './pixels/layout.ts';
import { MAX_PACKED_PIXELS, unpackFrame } from './pixels/unpack.ts';

const isPng = (b: Uint8Array) => b[0] === 0x89 && b[1] === 0x50 && b[2] === 0x4e && b[3] === 0x47;
const isJpeg = (b: Uint8Array) => b[0] === 0xff && b[1] === 0xd8 && b[2] === 0xff;

/** PNG or JPEG, by its first bytes. */
export const isPlainPicture = (bytes: Uint8Array): boolean => isPng(bytes) || isJpeg(bytes);

/**
 * Reads a PNG (8 or 16 bit) or baseline JPEG picture of a film. It says nothing about scale, side or
 * view: a person states them. Colour becomes grey with a warning, transparency is ignored.
 */
export function readPlainPicture(bytes: Uint8Array): Outcome<Film> {
  return isPng(bytes) ? png(bytes) : jpeg(bytes);
}

function png(bytes: Uint8Array): Outcome<Film> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 33) return DAMAGED;
  const size = { columns: view.getUint32(16), rows: view.getUint32(20) };
  if (!allowed(size, bytes.length)) return tooLarge(size);
  // The package throws on damage.
  try {
    const { data, depth, channels, palette } = decode(bytes);
    if (depth < 8 || palette) return NOT_READ;
    const values = data instanceof Uint16Array ? data : new Uint8Array(data.buffer, data.byteOffset, data.length);
    if (values.length < size.rows * size.columns * channels) return DAMAGED;
    const colour = channels > 2;
    const pixels = colour ? luma(withoutAlpha(values, channels), layoutOf(size, depth)) : every(values, channels);
    return ok(film('PNG', size, pixels, depth), colour ? [NO_SCALE, COLOUR] : [NO_SCALE]);
  } catch {
    return DAMAGED;
  }
}

function jpeg(bytes: Uint8Array): Outcome<Film> {
  const stream = codeStream(bytes);
  const syntax = transferSyntax('1.2.840.10008.1.2.4.50');
  if (!stream || !syntax) return DAMAGED;
  if (stream.kind !== 'jpeg-baseline' || (stream.components !== 1 && stream.components !== 3)) return NOT_READ;
  const samples = stream.components;
  const layout: PixelLayout = {
    ...layoutOf(stream, 8),
    samples,
    photometric: samples === 3 ? 'YBR_FULL' : 'MONOCHROME2',
  };
  const unpacked = unpackFrame(bytes, layout, syntax);
  if (!unpacked.ok) return unpacked;
  if (samples === 3) return ok(film('JPEG', stream, luma(unpacked.value, layout), 8), [NO_SCALE, COLOUR]);
  return ok(film('JPEG', stream, unpacked.value.data, 8), [NO_SCALE]);
}

interface Size {
  readonly rows: number;
  readonly columns: number;
}

/** Deflate packs at most 1032 to 1: a header that promises more is a bomb. */
const allowed = ({ rows, columns }: Size, length: number) =>
  rows > 0 && columns > 0 && rows * columns <= Math.min(MAX_PACKED_PIXELS, length * 1032);

const layoutOf = ({ rows, columns }: Size, depth: number): PixelLayout => ({
  rows,
  columns,
  frames: 1,
  samples: 3,
  photometric: 'RGB',
  planar: false,
  bitsAllocated: depth === 16 ? 16 : 8,
  bitsStored: depth,
  highBit: depth - 1,
  signed: false,
});

function withoutAlpha(data: Uint8Array | Uint16Array, channels: number) {
  const interleaved = { planar: false, photometric: 'RGB', shift: 0 } as const;
  if (channels === 3) return { ...interleaved, data };
  return { ...interleaved, data: data.filter((_, i) => i % 4 !== 3) };
}

const every = (data: Uint8Array | Uint16Array, channels: number): FilmPixels =>
  channels === 1 ? data : data.filter((_, i) => i % channels === 0);

function film(modality: 'PNG' | 'JPEG', size: Size, pixels: FilmPixels, bitsStored: number): Film {
  const { rows, columns } = size;
  return {
    rows,
    columns,
    frames: 1,
    pixels,
    bitsStored,
    grey: {
      modality: { kind: 'rescale', slope: 1, intercept: 0 },
      windows: [{ center: 2 ** (bitsStored - 1), width: 2 ** bitsStored }],
      windowFunction: 'LINEAR',
      inverted: false,
    },
    scaleFacts: { volumetric: false, rows, columns, derived: true },
    laterality: [],
    view: 'other',
    modality,
    burnedIn: 'not-stated',
    uids: {},
  };
}

const NO_SCALE: Warning = {
  code: 'picture-without-facts',
  message: 'A plain picture says nothing about scale, side, view or day.',
  mend: 'State them by hand, and calibrate on an implant of known width or a ball.',
};

const COLOUR: Warning = { code: 'film-colour-to-grey', message: 'The picture is in colour; its brightness is used.' };

const DAMAGED = cannot({
  code: 'picture-damaged',
  message: 'The picture is damaged or cut short.',
  mend: 'Export it again, as PNG or as the original DICOM.',
});

const NOT_READ = cannot({
  code: 'picture-not-readable',
  message: 'The picture is of a kind not read here: palette, less than 8 bits, progressive or CMYK.',
  mend: 'Save it as a grey PNG of 8 or 16 bits.',
});

const tooLarge = ({ rows, columns }: Size) =>
  cannot({
    code: 'picture-too-large',
    message: `The picture says that it has ${columns} x ${rows} pixels, which is too many or more than the file can hold.`,
    mend: 'Save it as a grey PNG of its real size.',
  });
