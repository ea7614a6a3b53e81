import { SLICE_OFFSET } from '@gapline/core/landmarks/slice-stack.ts';
import type { Film } from '../film.ts';
import { modalityValue, storedRange, throughTable } from '../grey/modality.ts';

/**
 * Values of one slice on the scale that all slices of a stack share: after the modality transform (Hounsfield units on
 * CT), plus 1024, rounded, held within 0 to 65535. The window of a single picture starts at its own darkest value and
 * would flicker from slice to slice.
 */
export function sliceValues(film: Film): Uint16Array {
  const { least, most } = storedRange(film.pixels);
  const table = Uint16Array.from({ length: most - least + 1 }, (_, i) =>
    Math.min(Math.max(Math.round(modalityValue(film.grey.modality, least + i) + SLICE_OFFSET), 0), 65535),
  );
  return throughTable(film.pixels, { least, table, into: new Uint16Array(film.pixels.length) });
}
