import type { ArcLine, ArcTerm } from './arc-term.ts';
import { type Footing, MOVES } from './footing.ts';
import type { Lengths } from './settle.ts';

/**
 * How hard each line of the arc pulls, cost per mm: + where it is charged for being loose, - for being tight; all angles of
 * mid-flexion of one side, then of the other. The pulls of one side add up to no more than the weight.
 */
export type ArcPull = readonly number[];

/** What the lines pull on J, q and K together, cost per mm. */
export function pullOnLengths(arc: ArcTerm | null, pull: ArcPull | null): Lengths {
  let j = 0;
  let q = 0;
  let k = 0;
  let n = 0;
  if (arc && pull)
    for (const lines of arc.sides)
      for (const { cos, sin } of lines) {
        const p = pull[n++] as number;
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
  let n = 0;
  for (const lines of arc.sides)
    for (const { rest } of lines) {
      const p = pull[n++] as number;
      sum += p > 0 ? p * (rest - high) : p * (rest - low);
    }
  return sum;
}

/** Lines that may pull: of which side, its place among all lines, and whether for being loose (+1) or tight (-1). */
interface Pullers {
  readonly side: number[];
  readonly line: ArcLine[];
  readonly place: number[];
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
  const found: Pullers = { side: [], line: [], place: [], way: [], charged: [] };
  let before = 0;
  for (let s = 0; s < sides.length; s++) {
    const lines = sides[s] as readonly ArcLine[];
    let worst = 0;
    for (const { cos, sin, rest } of lines) {
      const laxity = cos * j + sin * q - k + rest;
      worst = Math.max(worst, laxity - high, low - laxity);
    }
    for (let i = 0; i < lines.length; i++) {
      const line = lines[i] as ArcLine;
      const laxity = line.cos * j + line.sin * q - k + line.rest;
      const way = laxity - high >= worst - SAME ? 1 : low - laxity >= worst - SAME ? -1 : 0;
      if (way === 0) continue;
      found.side.push(s);
      found.line.push(line);
      found.place.push(before + i);
      found.way.push(way);
    }
    before += lines.length;
    found.charged.push(worst > SAME);
  }
  return found;
}

/**
 * The pull of the arc where a construct has settled. A side whose window is broken pulls with its whole weight; a line
 * at the end of its window pulls as much as it takes to balance the other slopes there. The balance is worked out by
 * going round the moves of the lengths; what remains of it only makes bounds weaker.
 *
 * @param footing stands at the point.
 */
export function arcPullAt(footing: Footing, arc: ArcTerm, at: Lengths): ArcPull {
  const pullers = pullersAt(arc, at);
  const { side, line, place, way, charged } = pullers;
  const n = side.length;
  const w = arc.weight.weight;
  const pulls: number[] = [];
  for (let i = 0; i < n; i++) {
    const s = side[i] as number;
    pulls.push(charged[s] ? w / count(side, s) : 0);
  }
  if (n > 0) {
    const slopes: number[] = [];
    // What a move adds to the cost for each unit of each pull, move by move.
    const gains: number[] = [];
    for (const move of MOVES) {
      slopes.push(footing.slopeOf(move));
      for (let i = 0; i < n; i++) {
        const { cos, sin } = line[i] as ArcLine;
        gains.push((way[i] as number) * (cos * move.j + sin * move.q - move.k));
      }
    }
    const balanced = { slopes, gains, pullers, weight: w };
    for (let round = 0; round < ROUNDS; round++) if (!balance(pulls, balanced)) break;
  }
  const found: number[] = [];
  for (const lines of arc.sides) for (let i = 0; i < lines.length; i++) found.push(0);
  for (let i = 0; i < n; i++) found[place[i] as number] = (way[i] as number) * (pulls[i] as number);
  return found;
}

/** How often a number stands in a list. */
function count(list: readonly number[], x: number): number {
  let n = 0;
  for (let i = 0; i < list.length; i++) if (list[i] === x) n++;
  return n;
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
