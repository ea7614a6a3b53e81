import type { Film } from '../film.ts';
import { modalityValue, storedRange, throughTable } from './modality.ts';
import { lutVoi, type Voi, windowVoi } from './voi.ts';

/**
 * A film as the standard wants it shown: modality transform, then a window of the file (by number, from
 * 0) or its VOI LUT, then inversion, to 256 grey levels. Without either, the full range of the film.
 * Source: DICOM PS3.3 C.11; checked against dcmtk.
 */
export function presentedGrey8(
  film: Film,
  choice: { readonly window?: number; readonly voiLut?: true } = {},
): Uint8Array {
  const { grey } = film;
  const { least, most } = storedRange(film.pixels);
  const window = grey.windows[choice.window ?? 0];
  const voi: Voi =
    grey.voiLut && (choice.voiLut || !window)
      ? lutVoi(grey.voiLut)
      : window
        ? windowVoi(window, grey.windowFunction)
        : wholeRange(film, least, most);
  const table = Uint8Array.from({ length: most - least + 1 }, (_, i) => {
    const share = voi(modalityValue(grey.modality, least + i));
    return Math.round(255 * (grey.inverted ? 1 - share : share));
  });
  return throughTable(film.pixels, { least, table, into: new Uint8Array(film.pixels.length) });
}

function wholeRange({ grey }: Film, least: number, most: number): Voi {
  const ends = [modalityValue(grey.modality, least), modalityValue(grey.modality, most)];
  const low = Math.min(...ends);
  const high = Math.max(...ends);
  return high > low ? (x) => (x - low) / (high - low) : () => 0;
}
