import type { GreyFilm } from './grey-film.ts';

/** Range of grey of a film, from every 16th pixel along both sides. */
export function greyRange({ pixels, rows, columns }: GreyFilm): number {
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let y = 0; y < rows; y += 16)
    for (let x = 0; x < columns; x += 16) {
      const v = pixels[y * columns + x] ?? 0;
      if (v < least) least = v;
      if (v > most) most = v;
    }
  return Math.max(0, most - least);
}
