import { type Cannot, cannot } from '@gapline/core/measure/outcome.ts';
import type { Point } from '@gapline/core/plane/point.ts';

/** A film as the viewer holds it: row by row, a higher value is brighter, metal is bright. */
export interface GreyFilm {
  readonly pixels: Uint16Array;
  readonly rows: number;
  readonly columns: number;
}

/** A place on the film, pixels, y down, pixel centres at whole numbers. */
export type FilmPoint = Point<'film'>;

/** Why a picture cannot be looked at, or null: its size must be whole, at least 32 pixels a side, and match its pixels. */
export function refusedFilm({ pixels, rows, columns }: GreyFilm): Cannot | null {
  const whole = Number.isInteger(rows) && Number.isInteger(columns) && rows >= 32 && columns >= 32;
  if (whole && pixels.length === rows * columns) return null;
  return cannot({
    code: 'film-size',
    message: `The film says ${columns} x ${rows} and holds ${pixels.length} values: nothing can be looked for on it.`,
    field: 'pixels',
    mend: 'Read the film again; it must be at least 32 pixels wide and high.',
  });
}

export const onFilm = ({ rows, columns }: GreyFilm, { x, y }: FilmPoint): boolean =>
  x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1;

/** Refusal of a hint that does not lie on the film, or null. */
export const refusedHint = (film: GreyFilm, at: FilmPoint, field: string): Cannot | null =>
  onFilm(film, at)
    ? null
    : cannot({
        code: 'hint-off-film',
        message: 'The place that was pointed at does not lie on the film.',
        field,
        mend: 'Point at a place on the film.',
      });

/** Refusal of a scale or size that is not a number above zero, or null; absent is no fault. */
export const refusedSize = (value: number | undefined, field: string): Cannot | null =>
  value === undefined || (Number.isFinite(value) && value > 0)
    ? null
    : cannot({
        code: 'not-a-size',
        message: `${field} must be a number above zero.`,
        field,
        mend: 'Leave it out where it is not known.',
      });

/** Grey between pixels, bilinear; beyond the film the value of its edge. */
export function valueAt({ pixels, rows, columns }: GreyFilm, x: number, y: number): number {
  const cx = Math.min(columns - 1, Math.max(0, x));
  const cy = Math.min(rows - 1, Math.max(0, y));
  const x0 = Math.min(columns - 2, Math.floor(cx));
  const y0 = Math.min(rows - 2, Math.floor(cy));
  const [fx, fy] = [cx - x0, cy - y0];
  const i = y0 * columns + x0;
  const upper = (pixels[i] ?? 0) * (1 - fx) + (pixels[i + 1] ?? 0) * fx;
  const lower = (pixels[i + columns] ?? 0) * (1 - fx) + (pixels[i + columns + 1] ?? 0) * fx;
  return upper * (1 - fy) + lower * fy;
}
