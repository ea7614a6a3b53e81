import type { Outlines } from '../catalogue/catalogue.ts';
import { flexed, type SagittalPoint, supportMm } from './arc-laxity.ts';

/** A femoral component as the arc sees it: its own sagittal outline, and how far its stem forces it into flexion. */
export interface ArcShape {
  /** Outlines of the catalogue; absent or empty = its shape is not known. */
  readonly outlines?: Outlines | undefined;
  /** Flexion of the component, deg, + = flexed. */
  readonly flexionDeg: number;
  /** Outline that the knee should have (BoneState.targetOutline); absent = the component's own, standing on target. */
  readonly target?: readonly SagittalPoint[] | undefined;
}

const pointsOf = (outlines: Outlines | undefined): readonly SagittalPoint[] =>
  (outlines?.sagittal ?? []).flat().map(([y, z]) => ({ y, z }));

/** Support at 0 and 90 degrees taken off, so that the outline touches the distal and the posterior line. */
function standingMm(outline: readonly SagittalPoint[], flexionDeg: number): number {
  const t = (flexionDeg * Math.PI) / 180;
  return supportMm(outline, flexionDeg) - supportMm(outline, 0) * Math.cos(t) - supportMm(outline, 90) * Math.sin(t);
}

/** Upper end of the flange, which stays on the cortex: the highest point of the outline, the most anterior of them. */
function flangeEnd(outline: readonly SagittalPoint[]): SagittalPoint {
  return outline.reduce((a, b) => (b.z > a.z || (b.z === a.z && b.y > a.y) ? b : a));
}

const turned = (outline: readonly SagittalPoint[], flexionDeg: number): readonly SagittalPoint[] =>
  flexionDeg === 0 ? outline : flexed(outline, flexionDeg, flangeEnd(outline));

/** Whether the shape can be judged: the component's outline is known wherever it would matter. */
export const shapeIsKnown = ({ outlines, flexionDeg, target }: ArcShape): boolean =>
  (flexionDeg === 0 && target === undefined) || pointsOf(outlines).length > 0;

/**
 * How much looser the component's shape alone leaves the knee at one angle than the shape that the knee should have,
 * both touching the target lines at 0 and at 90 degrees (GAP-23): `S_target(t) - S_component(t)`.
 *
 * @param flexionDeg angle of the knee, deg, 0 to 120.
 * @returns mm; + = looser, 0 = same shape. Zero at 0 and 90 degrees by what J and q mean. Where the component's
 * outline is not known (`shapeIsKnown`): 0, to be listed as not known.
 * A component of its own shape, not flexed, gives 0 at every angle.
 */
export function shapeLooserMm(shape: ArcShape, flexionDeg: number): number {
  if (shape.flexionDeg === 0 && shape.target === undefined) return 0;
  const own = pointsOf(shape.outlines);
  if (own.length === 0) return 0;
  const target = shape.target && shape.target.length > 0 ? shape.target : own;
  return standingMm(target, flexionDeg) - standingMm(turned(own, shape.flexionDeg), flexionDeg);
}

/**
 * How much further back the posterior surface reaches when the component is flexed about the upper end of its flange
 * (GAP-28): a flexed femur fills the flexion gap as one that is deeper by this much would.
 *
 * @param shape outline of the component and its flexion, deg, + = flexed.
 * @returns mm; + = further back, which closes flexion. 0 without flexion, and where the outline is not known.
 * Direction: posterior offset rises with flexion of the component (r 0.39, Ng 2020).
 */
export function flexionReachMm({ outlines, flexionDeg }: Pick<ArcShape, 'outlines' | 'flexionDeg'>): number {
  const own = pointsOf(outlines);
  if (flexionDeg === 0 || own.length === 0) return 0;
  return supportMm(turned(own, flexionDeg), 90) - supportMm(own, 90);
}
