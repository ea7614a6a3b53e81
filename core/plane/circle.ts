import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type FrameName, type Point, point } from './point.ts';

export interface Circle<F extends FrameName> {
  readonly centre: Point<F>;
  readonly radius: number;
}

export interface FittedCircle<F extends FrameName> extends Circle<F> {
  /** Root mean square distance of the points from the circle, in the frame's unit. */
  readonly rms: number;
  /**
   * Covariance of the centre when each point errs across the outline by a spread of 1, to first order: times the squared
   * spread of marking gives that of the centre. A short arc leaves the centre loose along its middle.
   */
  readonly centreCovariance: { readonly xx: number; readonly xy: number; readonly yy: number };
}

const ROUNDS = 50;

/**
 * Circle of least squares of *distance* through points on an outline (femoral head, calibration ball).
 * Algebraic start (Kasa 1976), then Gauss-Newton on the distances themselves, because the algebraic fit alone shrinks short
 * arcs (Chernov & Lesort, J Math Imaging Vis 2005; 23:239).
 * Points: three or more in one frame. Result: centre, radius and rms in the frame's unit.
 * Refuses fewer than three points, points in one place and points on a straight line.
 */
export function fitCircle<F extends FrameName>(points: readonly Point<F>[]): Outcome<FittedCircle<F>> {
  const first = points[0];
  if (!first || points.length < 3)
    return cannot({
      code: 'too-few-points',
      message: `A circle needs three points or more; ${points.length} given.`,
      mend: 'Mark more points on the outline.',
    });
  // Work about the mean and in units of the spread: otherwise far-away pixels cost digits.
  const mx = mean(points, 'x');
  const my = mean(points, 'y');
  const spread = Math.sqrt(points.reduce((s, p) => s + (p.x - mx) ** 2 + (p.y - my) ** 2, 0) / points.length);
  if (!(spread > 1e-9)) return cannot(ON_A_LINE);
  const unit = points.map((p) => ({ x: (p.x - mx) / spread, y: (p.y - my) / spread }));
  const start = algebraic(unit);
  const fit = start && refine(unit, start);
  if (!fit) return cannot(ON_A_LINE);
  const information = normalEquations(unit, fit);
  if (!(information.det > 0)) return cannot(ON_A_LINE);
  return ok({
    centreCovariance: {
      xx: information.a22 / information.det,
      xy: -information.a12 / information.det,
      yy: information.a11 / information.det,
    },
    centre: point(first.frame, mx + fit.x * spread, my + fit.y * spread),
    radius: fit.r * spread,
    rms:
      Math.sqrt(unit.reduce((s, p) => s + (Math.hypot(p.x - fit.x, p.y - fit.y) - fit.r) ** 2, 0) / unit.length) *
      spread,
  });
}

const ON_A_LINE = {
  code: 'points-on-a-line',
  message: 'The points on the outline lie in one place or on a straight line: no circle passes through them.',
  mend: 'Spread the points along the outline.',
} as const;

interface XY {
  readonly x: number;
  readonly y: number;
}
interface Guess extends XY {
  readonly r: number;
}

const mean = (points: readonly XY[], axis: 'x' | 'y') => points.reduce((s, p) => s + p[axis], 0) / points.length;

/** Least squares of x^2 + y^2 = 2 a x + 2 b y + c about the mean; null when the points are collinear. */
function algebraic(points: readonly XY[]): Guess | null {
  let [xx, xy, yy, xz, yz, zz] = [0, 0, 0, 0, 0, 0];
  for (const { x, y } of points) {
    const z = x * x + y * y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
    zz += z;
  }
  const det = xx * yy - xy * xy;
  if (!(det > 1e-9 * (xx + yy) ** 2)) return null;
  const a = (xz * yy - yz * xy) / (2 * det);
  const b = (yz * xx - xz * xy) / (2 * det);
  return { x: a, y: b, r: Math.sqrt(a * a + b * b + zz / points.length) };
}

/** Normal equations of the radial distances with the radius, whose best value is the mean distance, eliminated. */
function normalEquations(points: readonly XY[], { x, y, r }: Guess) {
  let [cc, cs, ss, c, s, ce, se, e] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (const p of points) {
    const d = Math.hypot(p.x - x, p.y - y);
    const [u, v] = d > 0 ? [(p.x - x) / d, (p.y - y) / d] : [0, 0];
    const residual = d - r;
    cc += u * u;
    cs += u * v;
    ss += v * v;
    c += u;
    s += v;
    ce += u * residual;
    se += v * residual;
    e += residual;
  }
  const n = points.length;
  const [a11, a12, a22] = [cc - (c * c) / n, cs - (c * s) / n, ss - (s * s) / n];
  return {
    a11,
    a12,
    a22,
    det: a11 * a22 - a12 * a12,
    b1: ce - (c * e) / n,
    b2: se - (s * e) / n,
    c: c / n,
    s: s / n,
    e: e / n,
  };
}

/** Gauss-Newton on radial distances. */
function refine(points: readonly XY[], start: Guess): Guess | null {
  let { x, y, r } = start;
  for (let round = 0; round < ROUNDS; round++) {
    const { a11, a12, a22, det, b1, b2, c, s, e } = normalEquations(points, { x, y, r });
    if (!(Math.abs(det) > 1e-18)) return null;
    const dx = (b1 * a22 - b2 * a12) / det;
    const dy = (b2 * a11 - b1 * a12) / det;
    r += e - c * dx - s * dy;
    x += dx;
    y += dy;
    if (Math.hypot(dx, dy) < 1e-12 * (1 + r)) break;
  }
  return Number.isFinite(x + y + r) && r > 0 && r < 1e6 ? { x, y, r } : null;
}
