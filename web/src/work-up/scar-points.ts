import type { Side } from '@gapline/core/landmarks/side.ts';

/** x = 0 medial to 1 lateral, y = 0 above to 1 below, on the outline of the knee. */
export type ScarPoint = readonly [number, number];

const round = (n: number): number => Math.round(1000 * Math.min(1, Math.max(0, n))) / 1000;

/** Kept on the outline, to a thousandth of its width. */
export const onOutline = ([x, y]: ScarPoint): ScarPoint => [round(x), round(y)];

/** Least distance between two points that are kept of a stroke, in widths of the outline. */
const APART = 0.02;

/** A stroke without the points that add nothing; its two ends stay. */
export function thinned(stroke: readonly ScarPoint[]): readonly ScarPoint[] {
  const kept: ScarPoint[] = [];
  for (const point of stroke) {
    const last = kept.at(-1);
    if (!last || Math.hypot(point[0] - last[0], point[1] - last[1]) >= APART) kept.push(point);
  }
  const end = stroke.at(-1);
  const last = kept.at(-1);
  if (end && last && kept.length > 1 && (end[0] !== last[0] || end[1] !== last[1])) kept[kept.length - 1] = end;
  return kept;
}

const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** Where an arrow key moves a point, as seen on the picture; null for other keys. */
export function movedPoint(
  [x, y]: ScarPoint,
  press: { readonly key: string; readonly shift: boolean; readonly side: Side },
): ScarPoint | null {
  const way = WAYS[press.key];
  if (!way) return null;
  const step = press.shift ? 0.1 : 0.02;
  // Of a right knee seen from the front medial stands on the right of the picture.
  const across = press.side === 'right' ? -way[0] : way[0];
  return onOutline([x + step * across, y + step * way[1]]);
}
