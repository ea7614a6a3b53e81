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

/** The whole cost of the three lengths: a convex function of space made of plane pieces. */
interface Landscape {
  readonly curves: readonly Curve[];
  /** For each side of the knee the pieces of the arc. */
  readonly sides: readonly (readonly Piece[])[];
}

/** The landscape at one point. */
class Spot {
  private readonly land: Landscape;
  private readonly x: Vector;
  /** Slopes of the six curves both ways. */
  private readonly up: number[];
  private readonly down: number[];
  /** For each side the pieces that are the largest here, and what they cost. */
  private readonly top: readonly Piece[][];
  private readonly cost: readonly number[];
  /** Normals of the planes on which the cost bends here. */
  readonly bends: readonly Vector[];

  constructor(land: Landscape, x: Vector) {
    this.land = land;
    this.x = x;
    const bends: Vector[] = [];
    const above = land.curves.map((curve, i) => firstAbove(curve, dot(ALONG[i] as Vector, x)));
    const from = land.curves.map((curve, i) => firstFrom(curve, dot(ALONG[i] as Vector, x)));
    this.up = land.curves.map((curve, i) => curve.slope[above[i] as number] as number);
    this.down = land.curves.map((curve, i) => curve.slope[from[i] as number] as number);
    for (let i = 0; i < 6; i++) if ((above[i] as number) > (from[i] as number)) bends.push(ALONG[i] as Vector);
    this.cost = land.sides.map((pieces) => pieces.reduce((most, p) => Math.max(most, dot(p.slope, x) + p.rest), 0));
    this.top = land.sides.map((pieces, s) =>
      pieces.filter((p) => dot(p.slope, x) + p.rest >= (this.cost[s] as number) - SAME),
    );
    for (const level of this.top)
      for (let i = 0; i < level.length; i++)
        for (let k = i + 1; k < level.length; k++) {
          const a = (level[i] as Piece).slope;
          const b = (level[k] as Piece).slope;
          bends.push([a[0] - b[0], a[1] - b[1], a[2] - b[2]]);
        }
    this.bends = bends;
  }

  /** Rise of cost per unit of a way. */
  slope(way: Vector): number {
    let sum = 0;
    for (let i = 0; i < 6; i++) {
      const step = dot(ALONG[i] as Vector, way);
      if (step > FLAT) sum += step * (this.up[i] as number);
      else if (step < -FLAT) sum += step * (this.down[i] as number);
    }
    for (const pieces of this.top) sum += steepest(pieces, way);
    return sum;
  }

  /** How far a way goes before the cost bends. */
  room(way: Vector): number {
    const { land, x } = this;
    let room = Number.POSITIVE_INFINITY;
    for (const [i, curve] of land.curves.entries()) {
      const along = ALONG[i] as Vector;
      const step = dot(along, way);
      if (Math.abs(step) < FLAT) continue;
      const at = dot(along, x);
      const kink = step > 0 ? curve.at[firstAbove(curve, at)] : curve.at[firstFrom(curve, at) - 1];
      if (kink !== undefined) room = Math.min(room, (kink - at) / step);
    }
    for (const [s, pieces] of land.sides.entries()) {
      const rise = steepest(this.top[s] ?? [], way);
      for (const p of pieces) {
        const faster = dot(p.slope, way) - rise;
        if (faster > FLAT) room = Math.min(room, ((this.cost[s] as number) - dot(p.slope, x) - p.rest) / faster);
      }
    }
    return room;
  }
}

function steepest(pieces: readonly Piece[], way: Vector): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const p of pieces) most = Math.max(most, dot(p.slope, way));
  return most;
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
  const land = {
    curves: [t.j, t.q, t.k, t.jLessK, t.qLessK, t.qLessJ],
    sides: arc.sides.map((lines) => piecesOf(lines, arc.weight)),
  };
  let x: Vector = [from.j, from.q, from.k];
  for (let steps = 0; ; steps++) {
    if (steps > MOST_STEPS) throw new Error('Settling in the arc did not end: a length has no limit.');
    const spot = new Spot(land, x);
    const { free, lines } = waysFrom(spot.bends);
    // Along a freedom one of two opposite ways never leads up: it ends at a further plane, and so at a corner.
    const way = free.find((w) => spot.slope(w) < SAME) ?? lines.find((w) => spot.slope(w) < -SAME);
    if (!way) break;
    const step = spot.room(way);
    x = [x[0] + step * way[0], x[1] + step * way[1], x[2] + step * way[2]];
  }
  const at = { j: x[0], q: x[1], k: x[2] };
  return { ...at, cost: costAt(t, at) + arcCost(arc, at) };
}
