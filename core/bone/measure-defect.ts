import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Line, signedDistance } from '../plane/line.ts';
import { between, dot, type FrameName, type Point } from '../plane/point.ts';

/** A defect as drawn, and the plane that its depth is counted from. One frame, one unit. */
export interface DrawnOutline<F extends FrameName> {
  /** Corners of the closed outline, three or more, in order round it. */
  readonly outline: readonly Point<F>[];
  /** Resection plane seen edge-on, directed so that the bone, and so the loss, lies on its **left**. */
  readonly plane: Line<F>;
  /** The side's surface along the plane, from one end to the other; null = its ends are not marked. */
  readonly surface: readonly [Point<F>, Point<F>] | null;
}

/** Size of a drawn defect, in the unit of the frame. */
export interface DefectSize {
  /** Deepest loss beyond the plane, perpendicular to it, >= 0. */
  readonly depth: number;
  /** Extent along the plane. */
  readonly width: number;
  /** Extent perpendicular to the plane of what lies beyond it. */
  readonly height: number;
  /** From the plane to where the defect begins, >= 0; 0 = it reaches the plane. */
  readonly fromPlane: number;
  /** Share of the side's surface without support, 0 to 1; null = the surface's ends are not marked. */
  readonly unsupported: number | null;
}

/** A defect that begins within this share of the surface's length beyond the plane opens into the surface: about 2 mm of 36. */
export const OPENS_WITHIN = 0.05;

/**
 * Measures a defect drawn as a closed outline (BONE-10): depth perpendicular to the resection plane, width along it, height, where
 * it begins, and the share of the side's surface that lost its support.
 *
 * All points in one frame with equal units along both axes; results in that unit, lengths >= 0. Only what lies beyond the plane
 * counts: bone on the joint's side of it is cut anyway. Unsupported is each stretch of the surface under which the defect begins
 * within 5 % of the surface's length: a cyst with a roof takes no support. An outline that bends back on itself, or crosses
 * itself, is measured as it stands. Source: geometry; what counts as open is a planning default, grade D.
 *
 * Refuses fewer than three corners, corners that are no numbers, and an outline that nowhere passes the plane.
 *
 * Example: corners (0,0) (10,0) (10,6) (0,6), plane along +x through 0, surface 0 to 40: depth 6, width 10, unsupported 0.25.
 */
export function measureDefect<F extends FrameName>(drawn: DrawnOutline<F>): Outcome<DefectSize> {
  const { outline, plane, surface } = drawn;
  if (outline.length < 3) return cannot(TOO_FEW);
  const corners = outline.map((p) => ({
    along: dot(between(plane.through, p), plane.along),
    depth: signedDistance(p, plane),
  }));
  if (!corners.every((c) => Number.isFinite(c.along) && Number.isFinite(c.depth))) return cannot(NO_NUMBERS);
  const depth = Math.max(...corners.map((c) => c.depth));
  if (!(depth > 0)) return cannot(BEFORE_THE_PLANE);
  const edges = corners.map((a, i): Edge => [a, corners[(i + 1) % corners.length] ?? a]);
  const beyond = edges.flatMap((e) => within(e, { from: 0, to: Number.POSITIVE_INFINITY }));
  const alongs = beyond.flatMap(([a, b]) => [a.along, b.along]);
  const fromPlane = Math.max(0, Math.min(...corners.map((c) => c.depth)));
  return ok({
    depth,
    width: Math.max(...alongs) - Math.min(...alongs),
    height: depth - fromPlane,
    fromPlane,
    unsupported: surface && unsupportedShare(edges, ends(surface, plane)),
  });
}

/** A corner in the plane's own terms. */
interface Corner {
  readonly along: number;
  readonly depth: number;
}
type Edge = readonly [Corner, Corner];

const ends = <F extends FrameName>(
  surface: readonly [Point<F>, Point<F>],
  plane: Line<F>,
): readonly [number, number] => {
  const [a, b] = surface.map((p) => dot(between(plane.through, p), plane.along)) as [number, number];
  return a < b ? [a, b] : [b, a];
};

/** The part of an edge whose depth lies in a layer; empty where it has none. */
function within([a, b]: Edge, layer: { readonly from: number; readonly to: number }): readonly Edge[] {
  const at = (depth: number): Corner => ({
    along: a.along + ((depth - a.depth) / (b.depth - a.depth)) * (b.along - a.along),
    depth,
  });
  const inside = (c: Corner) => c.depth >= layer.from && c.depth <= layer.to;
  if (Math.max(a.depth, b.depth) < layer.from || Math.min(a.depth, b.depth) > layer.to) return [];
  const bound = (c: Corner) => (inside(c) ? c : at(c.depth < layer.from ? layer.from : layer.to));
  return [[bound(a), bound(b)]];
}

/**
 * Share of [start, end] that has loss between the plane and the floor of the layer that counts as open. Such a stretch either has
 * loss at the plane itself, between two crossings of the outline with it, or meets an edge inside the layer.
 */
function unsupportedShare(edges: readonly Edge[], [start, end]: readonly [number, number]): number | null {
  const whole = end - start;
  if (!(whole > 0)) return null;
  const layer = { from: 0, to: OPENS_WITHIN * whole };
  const shadows = edges.flatMap((e) => within(e, layer)).map(([a, b]) => [a.along, b.along] as const);
  const open = [...shadows, ...atThePlane(edges)]
    .map(([a, b]) => [Math.max(start, Math.min(a, b)), Math.min(end, Math.max(a, b))] as const)
    .sort((a, b) => a[0] - b[0]);
  let covered = 0;
  let reached = start;
  for (const [from, to] of open) {
    covered += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return covered / whole;
}

/** Stretches of the plane inside the outline: from its first crossing to the second, from the third to the fourth, and so on. */
function atThePlane(edges: readonly Edge[]): readonly (readonly [number, number])[] {
  const crossings = edges
    .filter(([a, b]) => a.depth > 0 !== b.depth > 0)
    .map(([a, b]) => a.along + (a.depth / (a.depth - b.depth)) * (b.along - a.along))
    .sort((a, b) => a - b);
  return crossings.flatMap((from, i) => (i % 2 === 0 ? [[from, crossings[i + 1] ?? from] as const] : []));
}

const TOO_FEW = {
  code: 'outline-too-short',
  message: 'A defect needs three points or more round it.',
  field: 'outline',
  mend: 'Draw the whole outline.',
};
const NO_NUMBERS = {
  code: 'not-a-finite-number',
  message: 'A point of the outline is not a number.',
  field: 'outline',
  mend: 'Draw the defect again.',
};
const BEFORE_THE_PLANE = {
  code: 'defect-before-the-plane',
  message: "The outline lies wholly on the joint's side of the resection plane: nothing is lost beyond it.",
  field: 'outline',
  mend: 'Draw the defect in the bone, or check the marks that the plane comes from.',
};
