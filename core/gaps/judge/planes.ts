import { TOLERANCE } from './trial.ts';

/** A plane a J + b q + c K = d on which the cost bends. */
export type Plane = readonly [number, number, number, number];

/** The point in which three planes meet, by Cramer's rule; null where they do not meet in one. */
export function meeting(a: Plane, b: Plane, c: Plane): readonly [number, number, number] | null {
  const x = b[1] * c[2] - b[2] * c[1];
  const y = b[2] * c[0] - b[0] * c[2];
  const z = b[0] * c[1] - b[1] * c[0];
  const det = a[0] * x + a[1] * y + a[2] * z;
  if (Math.abs(det) < 1e-9) return null;
  const p = b[3] * c[2] - b[2] * c[3];
  const r = b[3] * c[1] - b[1] * c[3];
  const s = b[3] * c[0] - b[0] * c[3];
  return [
    (a[3] * x - a[1] * p + a[2] * r) / det,
    (a[0] * p + a[3] * y - a[2] * s) / det,
    (-a[0] * r + a[1] * s + a[3] * z) / det,
  ];
}

/** Whether a plane passes through a box of J, q and K. */
export function meetsBox(plane: Plane, box: readonly (readonly [number, number])[]): boolean {
  let least = 0;
  let most = 0;
  box.forEach(([low, high], i) => {
    const a = plane[i] as number;
    least += Math.min(a * low, a * high);
    most += Math.max(a * low, a * high);
  });
  return plane[3] >= least - TOLERANCE && plane[3] <= most + TOLERANCE;
}
