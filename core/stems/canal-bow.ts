import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import type { CanalInView } from './canal-view.ts';

/** The middle line of a canal in one view as a shallow arc. */
export interface CanalBow {
  /** Curvature of the middle line, 1/mm; + = convex towards low (medial, posterior), - = convex towards high (lateral, anterior). */
  readonly curvaturePerMm: number;
  readonly curvatureSdPerMm: number;
  /** Radius, mm; null where the curvature cannot be told from none (95 %). */
  readonly radiusMm: number | null;
  /** Depth of the arc over the traced length, mm, same sign as the curvature. */
  readonly sagittaMm: number;
  /** Height, place across and lean (tangent) of the middle line half way along the trace. */
  readonly middle: { readonly zMm: number; readonly acrossMm: number; readonly slope: number };
}

const CLEAR = 1.959963984540054;

/**
 * Bow of a canal in one view (STM-6): least squares of a parabola through the middles of the walls, which is an arc of the radius
 * 1 / (2 a) while the arc is shallow (100 to 250 mm of a radius of 800 mm and more: within 2 %).
 *
 * @returns curvature with its spread from marking the walls; the scale moves it by as much as itself. `cannot` with fewer than five levels.
 * Published: femoral bow about 940 to 1200 mm; Asian women 826 mm.
 */
export function canalBow(canal: CanalInView): Outcome<CanalBow> {
  const n = canal.sections.length;
  if (n < 5)
    return cannot({
      code: 'bow-levels',
      message: `The bow of a canal wants at least five levels; ${n} are traced on film ${canal.film}.`,
      field: `canals[${canal.film}].levels`,
      mend: 'Trace more levels.',
    });
  const z = canal.sections.map((s) => s.zMm);
  const y = canal.sections.map((s) => (s.lowMm + s.highMm) / 2);
  const [from, to] = [z[0] ?? 0, z.at(-1) ?? 0];
  const middle = (from + to) / 2;
  const half = Math.max((to - from) / 2, 1e-9);
  // Centred and scaled to -1 to 1, the normal equations are well conditioned.
  const t = z.map((v) => (v - middle) / half);
  const sum = (k: number) => t.reduce((a, v) => a + v ** k, 0);
  const [s0, s1, s2, s3, s4] = [n, sum(1), sum(2), sum(3), sum(4)];
  const moment = (k: number) => t.reduce((a, v, i) => a + (y[i] ?? 0) * v ** k, 0);
  const [m0, m1, m2] = [moment(0), moment(1), moment(2)];
  const det = s0 * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s2 * s3) + s2 * (s1 * s3 - s2 * s2);
  if (!(det > 1e-12))
    return cannot({ code: 'bow-levels', message: 'The levels of the canal lie in one place.', mend: 'Trace it anew.' });
  const a2 = (m0 * (s1 * s3 - s2 * s2) - m1 * (s0 * s3 - s1 * s2) + m2 * (s0 * s2 - s1 * s1)) / det;
  const a1 = (m0 * (s2 * s3 - s1 * s4) + m1 * (s0 * s4 - s2 * s2) - m2 * (s0 * s3 - s1 * s2)) / det;
  const a0 = (m0 - a1 * s1 - a2 * s2) / s0;
  const middleSd = canal.wallSdMm / Math.SQRT2;
  const fromMarks = 2 * middleSd * Math.sqrt((s0 * s2 - s1 * s1) / det) * half ** -2;
  const curvaturePerMm = (2 * a2) / half ** 2;
  const curvatureSdPerMm = Math.hypot(fromMarks, canal.scaleRelativeSd * curvaturePerMm);
  const clear = Math.abs(curvaturePerMm) > CLEAR * curvatureSdPerMm;
  return ok({
    curvaturePerMm,
    curvatureSdPerMm,
    radiusMm: clear ? 1 / Math.abs(curvaturePerMm) : null,
    sagittaMm: a2,
    middle: { zMm: middle, acrossMm: a0, slope: a1 / half },
  });
}

/**
 * The longest straight stem in a canal of one width bowed to one radius (STM-5), mm, exactly: the stem's two ends touch the outer
 * wall and its middle the inner one: `2 sqrt((R + W/2)^2 - (R - W/2 + D)^2)`, nearly `2 sqrt(2 R (W - D))`.
 * 0 where the stem is wider than the canal. Example: R 943, W 13, D 12: 87 mm.
 */
export function longestByBowMm(radiusMm: number, widthMm: number, diameterMm: number): number {
  if (!(widthMm > diameterMm)) return 0;
  return 2 * Math.sqrt(Math.max(0, (radiusMm + widthMm / 2) ** 2 - (radiusMm - widthMm / 2 + diameterMm) ** 2));
}
