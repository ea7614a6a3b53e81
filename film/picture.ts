import type { Film } from './film.ts';
import { modalityValue, storedRange, throughTable } from './grey/modality.ts';
import { lutEdges, windowEdges } from './grey/voi.ts';

/** A film ready to be windowed on a screen: linear after the modality transform, a higher value is brighter. */
export interface Picture {
  readonly rows: number;
  readonly columns: number;
  /** Row by row; the darkest value of the film is 0. */
  readonly pixels: Uint16Array;
  /** Initial window on these values: black at `low` and below, white at `high` and above. */
  readonly window: PictureWindow;
  readonly least: number;
  readonly most: number;
}

export interface PictureWindow {
  readonly low: number;
  readonly high: number;
}

/**
 * Turns a film into a picture (FILM-4). The initial window is the file's first, else the straight window
 * nearest to its VOI LUT, else the 1st to 99th percentile of what is neither blackest nor whitest.
 * Inversion (MONOCHROME1) is applied to values and window alike, as if after the VOI transform.
 * Source: DICOM PS3.3 C.11; the percentiles are a choice of this project.
 */
export function toPicture(film: Film, options: { readonly window?: number } = {}): Picture {
  const { grey, rows, columns } = film;
  const stored = storedRange(film.pixels);
  const values = Float64Array.from({ length: stored.most - stored.least + 1 }, (_, i) =>
    modalityValue(grey.modality, stored.least + i),
  );
  const ends = storedRange(values);
  // One step of the picture is one step of the stored values, so nothing is lost by rounding.
  const unit = grey.modality.kind === 'lut' ? 1 : Math.abs(grey.modality.slope);
  const span = Math.round((ends.most - ends.least) / unit);
  const place = (value: number) => (grey.inverted ? (ends.most - value) / unit : (value - ends.least) / unit);
  const table = Uint16Array.from(values, (value) => Math.round(place(value)));
  const pixels = throughTable(film.pixels, {
    least: stored.least,
    table,
    into: new Uint16Array(film.pixels.length),
  });
  const edges = statedEdges(film, options.window ?? 0);
  const window = edges ? ordered(place(edges.low), place(edges.high)) : percentiles(pixels, span);
  return { rows, columns, pixels, window, least: 0, most: span };
}

function statedEdges({ grey }: Film, index: number): PictureWindow | undefined {
  const window = grey.windows[index] ?? grey.windows[0];
  if (window) return windowEdges(window, grey.windowFunction);
  return grey.voiLut && lutEdges(grey.voiLut);
}

const ordered = (a: number, b: number): PictureWindow => ({ low: Math.min(a, b), high: Math.max(a, b) });

/** Borders of collimation and direct exposure sit at the ends and would flatten the bone. */
function percentiles(pixels: Uint16Array, most: number): PictureWindow {
  const counts = new Uint32Array(most + 1);
  for (let i = 0; i < pixels.length; i++) counts[pixels[i] as number] = (counts[pixels[i] as number] as number) + 1;
  counts[0] = 0;
  counts[most] = 0;
  const total = counts.reduce((sum, n) => sum + n, 0);
  const at = (share: number) => {
    let seen = 0;
    return counts.findIndex((n) => {
      seen += n;
      return n > 0 && seen >= share * total;
    });
  };
  const window = total > 0 ? { low: at(0.01), high: at(0.99) } : { low: 0, high: most };
  return window.high > window.low ? window : { low: 0, high: Math.max(most, 1) };
}

/** Grey levels 0 to 255 of a picture under a window, for print. */
export function toGrey8(picture: Picture, window: PictureWindow = picture.window): Uint8Array {
  const width = window.high - window.low;
  const table = Uint8Array.from({ length: picture.most + 1 }, (_, v) => {
    const share = width > 0 ? (v - window.low) / width : v > window.low ? 1 : 0;
    return Math.round(255 * Math.min(Math.max(share, 0), 1));
  });
  return throughTable(picture.pixels, { least: 0, table, into: new Uint8Array(picture.pixels.length) });
}
