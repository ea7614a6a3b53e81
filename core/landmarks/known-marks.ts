import type { EarnedScale } from '../calibration/calibration.ts';
import type { LandmarkId } from './landmark-table.ts';
import type { Mark } from './mark.ts';
import type { Side } from './side.ts';
import type { ColumnDirection } from './view.ts';

/** A known geometry in the limb's frame, mm: x lateral + (AP) or anterior + (lateral film), y proximal +. */
export type KnownPoints = Readonly<
  Partial<Record<LandmarkId, readonly [number, number] | readonly (readonly [number, number])[]>>
>;

export interface OnFilm {
  readonly film: string;
  readonly side: Side;
  readonly columnsTowards: ColumnDirection;
  readonly mmPerPx: { readonly x: number; readonly y: number };
  /** Film pixel at which the frame's origin lies. */
  readonly originPx: readonly [number, number];
}

/**
 * Marks of a known geometry: what would be clicked on a film that shows it, worked out the other way round than
 * `film-to-limb` does. For worked examples and tests.
 */
export function knownMarks(points: KnownPoints, on: OnFilm): readonly Mark[] {
  const rightwards = on.columnsTowards === 'anterior' || on.columnsTowards === `patient-${on.side}` ? 1 : -1;
  const pixel = ([x, y]: readonly [number, number]) => ({
    x: on.originPx[0] + (rightwards * x) / on.mmPerPx.x,
    y: on.originPx[1] - y / on.mmPerPx.y,
  });
  return Object.entries(points).map(([id, at]) => ({
    landmark: id as LandmarkId,
    side: on.side,
    film: on.film,
    points: isPair(at) ? [pixel(at)] : at.map(pixel),
    how: 'model-truth',
  }));
}

const isPair = (at: readonly unknown[]): at is readonly [number, number] => typeof at[0] === 'number';

/** A scale of that many millimetres per pixel, earned from an implant of known width. */
export const knownScale = (mmPerPx: { readonly x: number; readonly y: number }, relativeSd = 0.01): EarnedScale => ({
  source: 'known-implant',
  mmPerPx,
  relativeSd,
  rule: 'SCALE-1',
  because: 'worked example',
  doubtful: false,
});

/** Points on a circle, for outlines. */
export const onCircle = (
  [cx, cy]: readonly [number, number],
  radius: number,
  anglesDeg: readonly number[],
): readonly (readonly [number, number])[] =>
  anglesDeg.map(
    (a) => [cx + radius * Math.cos((a * Math.PI) / 180), cy + radius * Math.sin((a * Math.PI) / 180)] as const,
  );
