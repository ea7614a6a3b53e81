import type { Femur } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { toRad } from '../measure/angle.ts';
import { onTargetMm } from './arc-laxity.ts';
import { type ArcShape, shapeLooserMm } from './arc-shape.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct } from './construct.ts';
import { beyond } from './price.ts';
import type { Weight } from './weights.ts';

/**
 * Angles at which laxity between 0 and 90 degrees is judged and charged, deg (GAP-23): mid-flexion as it is commonly
 * meant, 30 to 60 degrees. Between them the curve bends by less than 0.1 mm for 10 mm of J and q.
 */
export const MID_FLEXION_DEG = [30, 45, 60] as const;

/** A construct where it stands, as the arc sees it. */
export interface KneeInArc {
  readonly state: BoneState;
  readonly construct: Pick<Construct, 'femurProximalMm' | 'femurAnteriorMm' | 'femoralFlexionDeg'>;
  readonly femur: Femur;
  /** K, mm proximal of the target joint line. */
  readonly bearingMm: number;
  /** What slope opens at 90 degrees, mm. */
  readonly slopeOpeningMm: number;
}

export const shapeOf = ({ state, construct, femur }: Pick<KneeInArc, 'state' | 'construct' | 'femur'>): ArcShape => ({
  outlines: femur.outlines,
  flexionDeg: construct.femoralFlexionDeg ?? 0,
  target: state.targetOutline,
});

/**
 * Laxity of both sides at one angle (GAP-23): `d(t) + q sin t + J cos t - K`, and what the component's shape adds.
 * d runs straight from e at 0 to f, with what slope opens, at 90 degrees and stays there (assumption).
 *
 * @param flexionDeg 0 to 120 deg.
 * @returns mm; 0 = just taut, + = loose. At 0 and 90 degrees it is the laxity of GAP-4 and GAP-5.
 * Example: 5 mm raised and 5 mm forward on a bearing 5 mm high is balanced at 0 and 90 and slack by 2.07 mm at 45 degrees.
 */
export function arcLaxity(knee: KneeInArc, flexionDeg: number): PerCompartment<number> {
  const { state, construct, bearingMm, slopeOpeningMm } = knee;
  const t = toRad(flexionDeg);
  const moved =
    construct.femurProximalMm * Math.cos(t) +
    construct.femurAnteriorMm * Math.sin(t) -
    bearingMm +
    shapeLooserMm(shapeOf(knee), flexionDeg);
  const side = (x: 'medial' | 'lateral') =>
    onTargetMm(state.extensionLaxityMm[x], state.flexionLaxityMm[x] + slopeOpeningMm, flexionDeg) + moved;
  return { medial: side('medial'), lateral: side('lateral') };
}

/** The laxity of one side that lies furthest outside a window; the first of the given ones where none does. */
export function furthestOutside<T extends { readonly laxityMm: number }>(
  points: readonly T[],
  window: Weight,
): T | null {
  return points.reduce<T | null>(
    (worst, point) => (worst && beyond(point.laxityMm, window) <= beyond(worst.laxityMm, window) ? worst : point),
    null,
  );
}
