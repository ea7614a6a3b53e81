/** Points, directions and rigid motions of the model, in millimetres. */
export type Point3 = readonly [number, number, number];

/** Row-major 3 x 3 matrix with a shift: `p' = m p + shift`. */
export interface Motion {
  readonly m: readonly number[];
  readonly shift: Point3;
}

export const add = (a: Point3, b: Point3): Point3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const minus = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Point3, k: number): Point3 => [a[0] * k, a[1] * k, a[2] * k];
export const dot = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const length = (a: Point3): number => Math.hypot(a[0], a[1], a[2]);
export const unit = (a: Point3): Point3 => times(a, 1 / length(a));
export const between = (a: Point3, b: Point3, share = 0.5): Point3 => add(a, times(minus(b, a), share));

export const rad = (deg: number): number => (deg * Math.PI) / 180;
export const deg = (radians: number): number => (radians * 180) / Math.PI;

export const STILL: Motion = { m: [1, 0, 0, 0, 1, 0, 0, 0, 1], shift: [0, 0, 0] };
export const shiftBy = (shift: Point3): Motion => ({ m: STILL.m, shift });

/** Turn in the coronal plane, about the y axis: + carries a distal point (negative z) to lateral (+x). */
export function turnCoronal(angleDeg: number): Motion {
  const [c, s] = [Math.cos(rad(angleDeg)), Math.sin(rad(angleDeg))];
  return { m: [c, 0, -s, 0, 1, 0, s, 0, c], shift: [0, 0, 0] };
}

/** Turn in the sagittal plane, about the x axis: + carries a distal point (negative z) backwards, as flexion of a shank. */
export function turnSagittal(angleDeg: number): Motion {
  const [c, s] = [Math.cos(rad(angleDeg)), Math.sin(rad(angleDeg))];
  return { m: [1, 0, 0, 0, c, s, 0, -s, c], shift: [0, 0, 0] };
}

/** Turn about the long axis: + is external rotation, the front turning to lateral. */
export function turnExternal(angleDeg: number): Motion {
  const [c, s] = [Math.cos(rad(angleDeg)), Math.sin(rad(angleDeg))];
  return { m: [c, s, 0, -s, c, 0, 0, 0, 1], shift: [0, 0, 0] };
}

export function moved(by: Motion, p: Point3): Point3 {
  const m = by.m;
  return [
    m[0]! * p[0] + m[1]! * p[1] + m[2]! * p[2] + by.shift[0],
    m[3]! * p[0] + m[4]! * p[1] + m[5]! * p[2] + by.shift[1],
    m[6]! * p[0] + m[7]! * p[1] + m[8]! * p[2] + by.shift[2],
  ];
}

/** The motion that does `first`, then `second`. */
export function chained(first: Motion, second: Motion): Motion {
  const a = second.m;
  const b = first.m;
  const m: number[] = [];
  for (let r = 0; r < 3; r++)
    for (let c = 0; c < 3; c++) m.push(a[3 * r]! * b[c]! + a[3 * r + 1]! * b[3 + c]! + a[3 * r + 2]! * b[6 + c]!);
  return { m, shift: moved(second, first.shift) };
}

/** The motion about a centre other than the origin. */
export const about = (centre: Point3, turn: Motion): Motion =>
  chained(chained(shiftBy(times(centre, -1)), turn), shiftBy(centre));

/** Inverse of a motion whose matrix is a rotation or reflection. */
export function back(by: Motion): Motion {
  const m = by.m;
  const t = [m[0]!, m[3]!, m[6]!, m[1]!, m[4]!, m[7]!, m[2]!, m[5]!, m[8]!];
  return { m: t, shift: times(moved({ m: t, shift: [0, 0, 0] }, by.shift), -1) };
}

/** Smooth step from 0 at `a` to 1 at `b`. */
export function ease(a: number, b: number, x: number): number {
  const t = Math.min(1, Math.max(0, (x - a) / (b - a)));
  return t * t * (3 - 2 * t);
}
