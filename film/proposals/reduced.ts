import type { GreyFilm } from './grey-film.ts';

/** A film made smaller: each value is the mean of a square of `factor` pixels. Squares cut by the far edges are left out. */
export interface Reduced {
  readonly values: Float32Array;
  readonly rows: number;
  readonly columns: number;
  readonly factor: number;
}

/** A level of a film's pyramid, by any whole factor. */
export function reduced({ pixels, rows, columns }: GreyFilm, factor: number): Reduced {
  const w = Math.floor(columns / factor);
  const h = Math.floor(rows / factor);
  const values = new Float32Array(w * h);
  for (let y = 0; y < h; y++) {
    const to = y * w;
    for (let k = 0; k < factor; k++) {
      let from = (y * factor + k) * columns;
      for (let x = 0; x < w; x++) {
        let sum = 0;
        for (let j = 0; j < factor; j++) sum += pixels[from++] ?? 0;
        values[to + x] = (values[to + x] ?? 0) + sum;
      }
    }
  }
  const share = 1 / (factor * factor);
  for (let i = 0; i < values.length; i++) values[i] = (values[i] ?? 0) * share;
  return { values, rows: h, columns: w, factor };
}

/** Place on the film of a place on the smaller one, along either axis. */
export const fromReduced = (v: number, factor: number): number => (v + 0.5) * factor - 0.5;

/** Place on the smaller one of a place on the film. */
export const toReduced = (v: number, factor: number): number => (v + 0.5) / factor - 0.5;
