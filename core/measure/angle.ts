/** Degrees and radians, and wrapping. Angles in the core are degrees unless a name ends in `Rad`. */
export const toRad = (deg: number): number => (deg * Math.PI) / 180;

export const toDeg = (rad: number): number => (rad * 180) / Math.PI;

/** Wraps to (-180, 180]. */
export function wrap180(deg: number): number {
  const r = ((deg % 360) + 360) % 360;
  return r > 180 ? r - 360 : r;
}

/** Wraps to [0, 360). */
export const wrap360 = (deg: number): number => ((deg % 360) + 360) % 360;
