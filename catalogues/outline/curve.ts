import type { Polyline } from '../../core/catalogue/catalogue.ts';

export type Point = readonly [number, number];

/** Part of an ellipse from one angle to another, degrees counter-clockwise from +x, both ends included. */
export function arc(
  centre: Point,
  radii: Point,
  { from, to, steps = 10 }: { readonly from: number; readonly to: number; readonly steps?: number },
): Point[] {
  return Array.from({ length: steps + 1 }, (_, i) => {
    const t = ((from + ((to - from) * i) / steps) * Math.PI) / 180;
    return [centre[0] + radii[0] * Math.cos(t), centre[1] + radii[1] * Math.sin(t)] as const;
  });
}

/** Closes a line, rounds it to tenths of a millimetre, and leaves out points that fall together. */
export function closed(points: readonly Point[]): Polyline {
  const rounded = points.map(([x, y]) => [Math.round(x * 10) / 10 + 0, Math.round(y * 10) / 10 + 0] as const);
  const kept = rounded.filter((p, i) => i === 0 || p[0] !== rounded[i - 1]?.[0] || p[1] !== rounded[i - 1]?.[1]);
  const [first] = kept;
  const last = kept.at(-1);
  return first && last && (first[0] !== last[0] || first[1] !== last[1]) ? [...kept, first] : kept;
}

/** The mirror image left to right, walked so that the joined line goes on. */
export const mirrored = (points: readonly Point[]): Point[] => points.map(([x, y]) => [-x, y] as const).reverse();
