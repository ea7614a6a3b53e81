import { type ArcTerm, arcCost } from './arc-term.ts';
import { type Curve, firstAbove, firstFrom } from './curve.ts';
import { costAt, type Lengths, type Settled, type Tied } from './settle.ts';

type Vector = readonly [number, number, number];

/** Directions of the six curves in (J, q, K). */
const ALONG: readonly Vector[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [1, 0, -1],
  [0, 1, -1],
  [-1, 1, 0],
];

/** A plane piece of the arc: `cost = slope . x + rest`. */
interface Piece {
  readonly slope: Vector;
  readonly rest: number;
}

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const NOTHING: Piece = { slope: [0, 0, 0], rest: 0 };
/** Slopes, costs and sines below this are rounding. */
const FLAT = 1e-10;
const SAME = 1e-9;
/** Far more corners than any descent passes. */
const MOST_STEPS = 1000;

/** What one side of the arc costs: the largest of these pieces. */
function piecesOf(lines: ArcTerm['sides'][number], { weight: w, free: [low, high] }: ArcTerm['weight']): Piece[] {
  return [
    NOTHING,
    ...lines.flatMap(({ cos, sin, rest }): Piece[] => [
      { slope: [w * cos, w * sin, -w], rest: w * (rest - high) },
      { slope: [-w * cos, -w * sin, w], rest: w * (low - rest) },
    ]),
  ];
}

/** The whole cost of the three lengths as a walker sees it: a convex function of space made of plane pieces. */
class Landscape {
  private readonly curves: readonly Curve[];
  private readonly sides: readonly (readonly Piece[])[];

  constructor(t: Tied, arc: ArcTerm) {
    this.curves = [t.j, t.q, t.k, t.jLessK, t.qLessK, t.qLessJ];
    this.sides = arc.sides.map((lines) => piecesOf(lines, arc.weight));
  }

  /** Rise of cost per unit of a way. */
  slope(x: Vector, way: Vector): number {
    let sum = 0;
    for (const [i, curve] of this.curves.entries()) {
      const along = ALONG[i] as Vector;
      const step = dot(along, way);
      if (Math.abs(step) < FLAT) continue;
      const at = dot(along, x);
      const index = step > 0 ? firstAbove(curve, at) : firstFrom(curve, at);
      sum += (curve.slope[index] as number) * step;
    }
    for (const pieces of this.sides) {
      const top = Math.max(...pieces.map((p) => dot(p.slope, x) + p.rest));
      let steepest = Number.NEGATIVE_INFINITY;
      for (const p of pieces)
        if (dot(p.slope, x) + p.rest >= top - SAME) steepest = Math.max(steepest, dot(p.slope, way));
      sum += steepest;
    }
    return sum;
  }

  /** How far a way goes before the cost bends. */
  room(x: Vector, way: Vector): number {
    let room = Number.POSITIVE_INFINITY;
    for (const [i, curve] of this.curves.entries()) {
      const along = ALONG[i] as Vector;
      const step = dot(along, way);
      if (Math.abs(step) < FLAT) continue;
      const at = dot(along, x);
      const kink = step > 0 ? curve.at[firstAbove(curve, at)] : curve.at[firstFrom(curve, at) - 1];
      if (kink !== undefined) room = Math.min(room, (kink - at) / step);
    }
    for (const pieces of this.sides) {
      const now = pieces.map((p) => ({ cost: dot(p.slope, x) + p.rest, rise: dot(p.slope, way) }));
      const top = Math.max(...now.map((p) => p.cost));
      const rise = Math.max(...now.filter((p) => p.cost >= top - SAME).map((p) => p.rise));
      for (const p of now) if (p.rise > rise + FLAT) room = Math.min(room, (top - p.cost) / (p.rise - rise));
    }
    return room;
  }

  /** Normals of the planes on which the cost bends at a point. */
  bends(x: Vector): Vector[] {
    const normals = this.curves.flatMap((curve, i) => {
      const along = ALONG[i] as Vector;
      const at = dot(along, x);
      return firstAbove(curve, at) > firstFrom(curve, at) ? [along] : [];
    });
    for (const pieces of this.sides) {
      const costs = pieces.map((p) => dot(p.slope, x) + p.rest);
      const top = Math.max(...costs);
      const level = pieces.filter((_, i) => (costs[i] as number) >= top - SAME);
      level.forEach((a, i) => {
        for (const b of level.slice(i + 1))
          normals.push([a.slope[0] - b.slope[0], a.slope[1] - b.slope[1], a.slope[2] - b.slope[2]]);
      });
    }
    return normals;
  }
}

/** The vector at length 1, as a list of one; an empty list where it has no length. */
const unit = (v: Vector): Vector[] => {
  const length = Math.sqrt(dot(v, v));
  return length < SAME ? [] : [[v[0] / length, v[1] / length, v[2] / length]];
};

const bothWays = (lines: readonly Vector[]): Vector[] =>
  lines.flatMap(([a, b, c]): Vector[] => [
    [a, b, c],
    [-a, -b, -c],
  ]);

/**
 * Ways that suffice to find a lower place: the lines in which two of the bending planes meet. Where the planes leave
 * a freedom (no corner yet) the ways along it, on which the cost does not bend, stand apart.
 */
function waysFrom(normals: readonly Vector[]): { free: Vector[]; lines: Vector[] } {
  const units = normals.flatMap((n) => unit(n));
  const lines = units.flatMap((a, i) => units.slice(i + 1).flatMap((b) => unit(cross(a, b))));
  const free = lines.filter((line) => units.every((n) => Math.abs(dot(n, line)) < SAME));
  const [only] = units;
  const axes = ALONG.slice(0, 3);
  // One plane, or none: ways within it, or the axes.
  const loose = lines.length > 0 ? [] : only ? axes.flatMap((axis) => unit(cross(only, axis))) : axes;
  return { free: bothWays([...free, ...loose]), lines: bothWays(lines) };
}

/**
 * The exact least cost of the three lengths with the arc of motion (docs/decisions/solver.md). From a point that keeps
 * the limits it walks along the lines in which the bending planes meet, as long as that lowers the cost. The cost is
 * convex, and at a corner its slope is linear within each cone that those lines span: if none of them leads down,
 * nothing does.
 *
 * @param from a point that keeps the limits, mm: where the lengths settle without the arc.
 */
export function settleInArc(t: Tied, arc: ArcTerm, from: Lengths): Settled {
  const land = new Landscape(t, arc);
  let x: Vector = [from.j, from.q, from.k];
  for (let steps = 0; ; steps++) {
    if (steps > MOST_STEPS) throw new Error('Settling in the arc did not end: a length has no limit.');
    const { free, lines } = waysFrom(land.bends(x));
    // Along a freedom one of two opposite ways never leads up: it ends at a further plane, and so at a corner.
    const way = free.find((w) => land.slope(x, w) < SAME) ?? lines.find((w) => land.slope(x, w) < -SAME);
    if (!way) break;
    const step = land.room(x, way);
    x = [x[0] + step * way[0], x[1] + step * way[1], x[2] + step * way[2]];
  }
  const at = { j: x[0], q: x[1], k: x[2] };
  return { ...at, cost: costAt(t, at) + arcCost(arc, at) };
}
