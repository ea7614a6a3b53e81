import { toDeg } from '../measure/angle.ts';
import type { CanalInView } from './canal-view.ts';

/** The straight axis of the near part of a canal, carried to a height. */
export interface CanalAxis {
  /** Across at that height, mm; + = lateral or anterior of where the component stands without offset. */
  readonly acrossMm: number;
  /** Lean against the planned stem, deg; + = towards lateral or anterior going outwards. */
  readonly leanDeg: number;
}

/** How much of the canal gives its axis, mm from the first traced level. */
const LENGTH_MM = 120;

/**
 * Where the canal's own axis passes the component (STM-10): least squares line through the middles of the walls of the first 120 mm
 * traced, carried to `zMm`. Null with fewer than two levels there.
 * Published: the plateau's centre lies behind the shaft's axis by 23.5 % (13.1 to 33.2) of the tibia's depth; the axis
 * lies 3.4 +- 1.9 mm lateral and 6.2 +- 2.1 mm anterior of it (50 MRI).
 */
export function canalAxisAt(canal: CanalInView, zMm: number): CanalAxis | null {
  const first = canal.sections[0]?.zMm ?? 0;
  const near = canal.sections.filter((s) => s.zMm <= first + LENGTH_MM);
  const n = near.length;
  if (n < 2) return null;
  const middle = (s: (typeof near)[number]) => (s.lowMm + s.highMm) / 2;
  const z0 = near.reduce((sum, s) => sum + s.zMm, 0) / n;
  const y0 = near.reduce((sum, s) => sum + middle(s), 0) / n;
  const zz = near.reduce((sum, s) => sum + (s.zMm - z0) ** 2, 0);
  const zy = near.reduce((sum, s) => sum + (s.zMm - z0) * (middle(s) - y0), 0);
  if (!(zz > 0)) return null;
  const slope = zy / zz;
  return { acrossMm: y0 + slope * (zMm - z0), leanDeg: toDeg(Math.atan(slope)) };
}
