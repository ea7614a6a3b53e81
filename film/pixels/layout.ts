import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { type DataSet, tagName } from '../dicom/data-set.ts';
import { TAG } from '../dicom/tags.ts';
import { decimal, short, text } from '../dicom/values.ts';

/** Largest film read, in pixels: seven times the largest long-leg film made today. */
export const MAX_PIXELS = 400_000_000;

export interface PixelLayout {
  readonly rows: number;
  readonly columns: number;
  readonly frames: number;
  readonly samples: 1 | 3;
  readonly photometric: Photometric;
  /** Colour planes one after the other instead of pixel by pixel. */
  readonly planar: boolean;
  readonly bitsAllocated: 8 | 16;
  readonly bitsStored: number;
  readonly highBit: number;
  readonly signed: boolean;
}

const PHOTOMETRICS = ['MONOCHROME1', 'MONOCHROME2', 'RGB', 'YBR_FULL', 'YBR_FULL_422', 'YBR_RCT', 'YBR_ICT'] as const;

export type Photometric = (typeof PHOTOMETRICS)[number];

/** How the pixels lie in the file (Image Pixel module, PS3.3 C.7.6.3). Refuses what cannot be a film. */
export function pixelLayout(set: DataSet): Outcome<PixelLayout> {
  const rows = short(set, TAG.Rows);
  const columns = short(set, TAG.Columns);
  if (!rows || !columns) return refuse(rows ? TAG.Columns : TAG.Rows, 'states no size, so it holds no picture');
  if (rows * columns > MAX_PIXELS) {
    return refuse(TAG.Rows, `has ${columns} x ${rows} pixels; the limit is ${MAX_PIXELS / 1e6} million`);
  }
  const photometric = text(set, TAG.PhotometricInterpretation) ?? '';
  if (!isPhotometric(photometric)) {
    return refuse(TAG.PhotometricInterpretation, `has colours of a kind not read here ("${photometric}")`);
  }
  const samples = short(set, TAG.SamplesPerPixel) ?? 1;
  if (samples !== (photometric.startsWith('MONOCHROME') ? 1 : 3)) {
    return refuse(TAG.SamplesPerPixel, `says ${samples} samples a pixel, which ${photometric} does not have`);
  }
  const bitsAllocated = short(set, TAG.BitsAllocated);
  if (bitsAllocated !== 8 && bitsAllocated !== 16) {
    return refuse(TAG.BitsAllocated, `has ${bitsAllocated ?? 'an unknown number of'} bits a pixel; 8 and 16 are read`);
  }
  const bitsStored = short(set, TAG.BitsStored) ?? bitsAllocated;
  const highBit = short(set, TAG.HighBit) ?? bitsStored - 1;
  if (bitsStored < 1 || bitsStored > bitsAllocated || highBit >= bitsAllocated || highBit + 1 < bitsStored) {
    return refuse(
      TAG.BitsStored,
      `stores ${bitsStored} bits up to bit ${highBit} in ${bitsAllocated}, which cannot be`,
    );
  }
  const frames = decimal(set, TAG.NumberOfFrames) ?? 1;
  if (!Number.isInteger(frames) || frames < 1)
    return refuse(TAG.NumberOfFrames, 'says how many frames, but no whole number');
  return ok({
    rows,
    columns,
    frames,
    samples,
    photometric,
    planar: short(set, TAG.PlanarConfiguration) === 1,
    bitsAllocated,
    bitsStored,
    highBit,
    signed: short(set, TAG.PixelRepresentation) === 1,
  });
}

const isPhotometric = (value: string): value is Photometric => PHOTOMETRICS.some((p) => p === value);

const refuse = (tag: number, what: string) =>
  cannot({
    code: 'pixels-not-readable',
    message: `The film ${what}.`,
    field: tagName(tag),
    mend: 'Export it as DX, CR or SC with 8 to 16 bits a pixel, grey or RGB.',
  });
