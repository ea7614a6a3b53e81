import type { ArcLine, ArcTerm } from './arc-term.ts';
import { Footing } from './footing.ts';
import { type Lengths, MOVES, type Tied } from './settle.ts';

/**
 * How hard each line of the arc pulls, cost per mm: + where it is charged for being loose, - for being tight; for each
 * side and each angle of mid-flexion. The pulls of one side add up to no more than the weight.
 */
export type ArcPull = readonly (readonly number[])[];

/** What the lines pull on J, q and K together, cost per mm. */
export function pullOnLengths(arc: ArcTerm | null, pull: ArcPull | null): Lengths {
  let j = 0;
  let q = 0;
  let k = 0;
  if (arc && pull)
    for (const [s, lines] of arc.sides.entries())
      for (const [i, { cos, sin }] of lines.entries()) {
        const p = pull[s]?.[i] ?? 0;
        j += p * cos;
        q += p * sin;
        k -= p;
      }
  return { j, q, k };
}

/** What the arc costs at least beyond that pull, whatever the lengths: each line is charged beyond its end of the window. */
export function arcBeyond(arc: ArcTerm | null, pull: ArcPull | null): number {
  if (!arc || !pull) return 0;
  const [low, high] = arc.weight.free;
  let sum = 0;
  for (const [s, lines] of arc.sides.entries())
    for (const [i, { rest }] of lines.entries()) {
      const p = pull[s]?.[i] ?? 0;
      sum += p > 0 ? p * (rest - high) : p * (rest - low);
    }
  return sum;
}

/** Lines that may pull: of which side and angle, and whether for being loose (+1) or tight (-1). */
interface Pullers {
  readonly side: number[];
  readonly index: number[];
  readonly way: number[];
  /** For each side whether it costs anything. */
  readonly charged: boolean[];
}

const SAME = 1e-7;
/** Rounds of balancing; what is left unbalanced only weakens a bound. */
const ROUNDS = 24;

/** Lines that stand furthest outside the window of their side, or at its end. */
function pullersAt({ sides, weight }: ArcTerm, { j, q, k }: Lengths): Pullers {
  const [low, high] = weight.free;
  const found: Pullers = { side: [], index: [], way: [], charged: [] };
  for (const [s, lines] of sides.entries()) {
    let worst = 0;
    for (const { cos, sin, rest } of lines) {
      const laxity = cos * j + sin * q - k + rest;
      worst = Math.max(worst, laxity - high, low - laxity);
    }
    for (const [i, { cos, sin, rest }] of lines.entries()) {
      const laxity = cos * j + sin * q - k + rest;
      if (laxity - high >= worst - SAME) add(found, s, i, 1);
      if (low - laxity >= worst - SAME) add(found, s, i, -1);
    }
    found.charged.push(worst > SAME);
  }
  return found;
}

function add(pullers: Pullers, side: number, index: number, way: 1 | -1): void {
  pullers.side.push(side);
  pullers.index.push(index);
  pullers.way.push(way);
}

/**
 * The pull of the arc where a construct has settled. A side whose window is broken pulls with its whole weight; a line
 * at the end of its window pulls as much as it takes to balance the other slopes there. The balance is worked out by
 * going round the moves of the lengths; what remains of it only makes bounds weaker.
 */
export function arcPullAt(tied: Tied, arc: ArcTerm, at: Lengths): ArcPull {
  const pullers = pullersAt(arc, at);
  const { side, index, way, charged } = pullers;
  const n = side.length;
  const w = arc.weight.weight;
  const pulls = side.map((s) => (charged[s] ? w / side.filter((other) => other === s).length : 0));
  if (n > 0) {
    const footing = new Footing(tied, at);
    const slopes = MOVES.map((move) => footing.slopeOf(move));
    // What a move adds to the cost for each unit of each pull, move by move.
    const gains: number[] = [];
    for (const [j = 0, q = 0, k = 0] of MOVES)
      for (let i = 0; i < n; i++) {
        const { cos, sin } = (arc.sides[side[i] as number] as readonly ArcLine[])[index[i] as number] as ArcLine;
        gains.push((way[i] as number) * (cos * j + sin * q - k));
      }
    for (let round = 0; round < ROUNDS; round++) if (!balance(pulls, { slopes, gains, pullers, weight: w })) break;
  }
  const sums = arc.sides.map((lines) => lines.map(() => 0));
  for (let i = 0; i < n; i++) {
    const ofSide = sums[side[i] as number] as number[];
    ofSide[index[i] as number] = (ofSide[index[i] as number] as number) + (way[i] as number) * (pulls[i] as number);
  }
  return sums;
}

interface Balance {
  readonly slopes: readonly number[];
  readonly gains: readonly number[];
  readonly pullers: Pullers;
  readonly weight: number;
}

/** Balances the move that still lowers the cost most; false where none does. */
function balance(pulls: number[], { slopes, gains, pullers, weight }: Balance): boolean {
  const n = pulls.length;
  let worst = -SAME;
  let against = -1;
  for (let m = 0; m < slopes.length; m++) {
    let slope = slopes[m] as number;
    for (let i = 0; i < n; i++) slope += (pulls[i] as number) * (gains[m * n + i] as number);
    if (slope < worst) {
      worst = slope;
      against = m;
    }
  }
  if (against < 0) return false;
  let square = 0;
  for (let i = 0; i < n; i++) square += (gains[against * n + i] as number) ** 2;
  if (square < SAME) return false;
  for (let i = 0; i < n; i++) {
    const pull = (pulls[i] as number) - (worst * (gains[against * n + i] as number)) / square;
    pulls[i] = Math.max(0, Math.min(weight, pull));
  }
  fitSides(pulls, pullers, weight);
  return true;
}

/** Keeps the pulls of a side together at no more than the weight, and at the weight where its window is broken. */
function fitSides(pulls: number[], { side, charged }: Pullers, weight: number): void {
  for (let s = 0; s < charged.length; s++) {
    let sum = 0;
    let count = 0;
    for (let i = 0; i < pulls.length; i++)
      if (side[i] === s) {
        sum += pulls[i] as number;
        count++;
      }
    if (!(sum > weight || (charged[s] && sum < weight))) continue;
    for (let i = 0; i < pulls.length; i++)
      if (side[i] === s) pulls[i] = sum > 0 ? ((pulls[i] as number) * weight) / sum : weight / count;
  }
}
