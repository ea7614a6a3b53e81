import { toRad } from '../measure/angle.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';

/** A point of a sagittal outline from the turning axis O: y anterior, z proximal, mm. */
export interface SagittalPoint {
  readonly y: number;
  readonly z: number;
}

/**
 * Support of an outline at a flexion angle: how far it reaches from the turning axis towards the tibia.
 *
 * @param outline points of the sagittal outline, mm from O.
 * @param flexionDeg 0 = straight, the tibia lies distal; 90 = the tibia lies posterior.
 * @returns mm; + = reaches towards the tibia. The largest over the points, so exact for a polygon.
 */
export function supportMm(outline: readonly SagittalPoint[], flexionDeg: number): number {
  const s = Math.sin(toRad(flexionDeg));
  const c = Math.cos(toRad(flexionDeg));
  return outline.reduce((far, { y, z }) => Math.max(far, -s * y - c * z), Number.NEGATIVE_INFINITY);
}

export interface Arc {
  /** Outline that the knee should have, and that of the component where it stands, mm from O. */
  readonly target: readonly SagittalPoint[];
  readonly component: readonly SagittalPoint[];
  /** e and f: laxity of the side at 0 and 90 degrees with the surfaces on target, mm. */
  readonly extensionMm: number;
  readonly flexionMm: number;
  /** K: insert surface proximal to the target joint line, mm. */
  readonly bearingMm: number;
}

/** Flexion to which laxity is followed, deg: beyond 90 degrees d stays at f, an assumption. */
export const ARC_END_DEG = 120;

/** d(t): laxity on target at one angle, straight from e at 0 to f at 90 degrees, f beyond (assumption); mm. */
export const onTargetMm = (extensionMm: number, flexionMm: number, flexionDeg: number): number =>
  extensionMm + ((flexionMm - extensionMm) * Math.min(flexionDeg, 90)) / 90;

/**
 * Laxity of one side at one flexion angle (GAP-13): `d(t) + S_target(t) - S_component(t) - K`, d running straight from
 * e at 0 to f at 90 degrees and staying at f beyond.
 *
 * @returns mm; 0 = just taut, + = loose. Valid from 0 to 120 degrees; refuses angles outside and empty outlines.
 * Example: a circle about O, moved 5 mm proximally and anteriorly with K = 5, is slack by 2.07 mm at 45 degrees.
 */
export function arcLaxityMm(arc: Arc, flexionDeg: number): Outcome<number> {
  if (!(flexionDeg >= 0 && flexionDeg <= ARC_END_DEG))
    return cannot({
      code: 'flexion-outside-arc',
      message: `Laxity through the arc is known from 0 to ${ARC_END_DEG} degrees, not at ${flexionDeg}.`,
      mend: `Ask for an angle between 0 and ${ARC_END_DEG} degrees.`,
    });
  if (arc.target.length === 0 || arc.component.length === 0)
    return cannot({
      code: 'outline-empty',
      message: 'An outline of the femur holds no point.',
      mend: 'Give both sagittal outlines, measured from the turning axis.',
    });
  const drift = onTargetMm(arc.extensionMm, arc.flexionMm, flexionDeg);
  return ok(drift + supportMm(arc.target, flexionDeg) - supportMm(arc.component, flexionDeg) - arc.bearingMm);
}

/** Turns an outline about a centre, flexion of the component +, deg: what reached distally then reaches posteriorly less. */
export function flexed(
  outline: readonly SagittalPoint[],
  flexionDeg: number,
  centre: SagittalPoint,
): readonly SagittalPoint[] {
  const s = Math.sin(toRad(flexionDeg));
  const c = Math.cos(toRad(flexionDeg));
  return outline.map(({ y, z }) => {
    const dy = y - centre.y;
    const dz = z - centre.z;
    return { y: centre.y + c * dy + s * dz, z: centre.z - s * dy + c * dz };
  });
}
