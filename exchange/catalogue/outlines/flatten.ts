export type XY = readonly [x: number, y: number];

/** Farthest that a chord may lie from its curve, in the unit of the drawing: under a millimetre's twentieth at 1:1. */
export const SAGITTA = 0.05;
/** Bounds against nonsense: pieces of one curve. */
const MOST_PIECES = 720;

/** Pieces into which an arc is cut so that no chord lies farther than the sagitta from it; at least one a quarter turn. */
function piecesOf(radius: number, sweepRad: number): number {
  const turn = Math.abs(sweepRad);
  const step = radius > SAGITTA ? 2 * Math.acos(1 - SAGITTA / radius) : Math.PI / 2;
  return Math.min(MOST_PIECES, Math.max(1, Math.ceil(turn / Math.min(step, Math.PI / 2)) || 1));
}

export interface Arc {
  readonly centre: XY;
  readonly radius: number;
  /** Where it begins, and how far it turns: counter-clockwise +, radians. */
  readonly fromRad: number;
  readonly sweepRad: number;
}

/** An arc as points on it, both ends among them. */
export function arcPoints({ centre: [cx, cy], radius, fromRad, sweepRad }: Arc): XY[] {
  const n = piecesOf(radius, sweepRad);
  return Array.from({ length: n + 1 }, (_, i): XY => {
    const a = fromRad + (sweepRad * i) / n;
    return [cx + radius * Math.cos(a), cy + radius * Math.sin(a)];
  });
}

/**
 * The arc between two points whose bulge is the tangent of a quarter of its angle, + = counter-clockwise from the first to the
 * second; a straight line for 0. The first point is left out.
 */
export function bulgePoints([x1, y1]: XY, [x2, y2]: XY, bulge: number): XY[] {
  const chord = Math.hypot(x2 - x1, y2 - y1);
  if (Math.abs(bulge) < 1e-9 || chord === 0) return [[x2, y2]];
  const sweepRad = 4 * Math.atan(bulge);
  // Distance from the middle of the chord to the centre, + = to the left of it.
  const off = (chord * (1 - bulge ** 2)) / (4 * bulge);
  const centre: XY = [(x1 + x2) / 2 - (off * (y2 - y1)) / chord, (y1 + y2) / 2 + (off * (x2 - x1)) / chord];
  const radius = Math.hypot(x1 - centre[0], y1 - centre[1]);
  const fromRad = Math.atan2(y1 - centre[1], x1 - centre[0]);
  return [...arcPoints({ centre, radius, fromRad, sweepRad }).slice(1, -1), [x2, y2]];
}

/** A cubic Bézier curve as points on it, the first left out: cut so finely that no chord lies farther than the sagitta. */
export function cubicPoints([a, b, c, d]: readonly [XY, XY, XY, XY]): XY[] {
  // The greatest second difference bounds how far a chord of 1/n lies off (Wang's formula for degree 3).
  const bend = Math.max(
    Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]),
    Math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]),
  );
  const n = Math.min(MOST_PIECES, Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / SAGITTA))));
  return Array.from({ length: n }, (_, i): XY => {
    const t = (i + 1) / n;
    const s = 1 - t;
    const at = (k: 0 | 1) => s ** 3 * a[k] + 3 * s ** 2 * t * b[k] + 3 * s * t ** 2 * c[k] + t ** 3 * d[k];
    return [at(0), at(1)];
  });
}

/** A quadratic one, as the cubic that it is. */
export const quadraticPoints = ([a, b, c]: readonly [XY, XY, XY]): XY[] => {
  const third = (from: XY): XY => [from[0] + (2 / 3) * (b[0] - from[0]), from[1] + (2 / 3) * (b[1] - from[1])];
  return cubicPoints([a, third(a), third(c), c]);
};
