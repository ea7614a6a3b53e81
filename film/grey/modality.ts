import type { Film, ModalityTransform } from '../film.ts';
import { lookUp } from './look-up-table.ts';

/** Value after the modality transform, for one stored value. */
export const modalityValue = (transform: ModalityTransform, stored: number): number =>
  transform.kind === 'lut' ? lookUp(transform.lut, stored) : stored * transform.slope + transform.intercept;

/** Smallest and largest stored value of the film. */
export function storedRange(pixels: Film['pixels'] | Float64Array): { readonly least: number; readonly most: number } {
  let least = pixels[0] ?? 0;
  let most = least;
  for (let i = 1; i < pixels.length; i++) {
    const v = pixels[i] as number;
    if (v < least) least = v;
    else if (v > most) most = v;
  }
  return { least, most };
}

/** Runs a film through a table with one entry for every stored value from `least` on. */
export function throughTable<T extends Uint8Array | Uint16Array>(
  pixels: Film['pixels'],
  { least, table, into }: { readonly least: number; readonly table: T; readonly into: T },
): T {
  for (let i = 0; i < pixels.length; i++) into[i] = table[(pixels[i] as number) - least] as number;
  return into;
}
