import type { ArcLine, ArcTerm } from './arc-term.ts';
import { Footing, type Lengths, MOVES, type Tied } from './settle.ts';

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

/** A line that may pull, and between which ends. */
interface Puller {
  readonly side: number;
  readonly index: number;
  readonly way: 1 | -1;
  readonly line: ArcLine;
}

const SAME = 1e-7;
/** Rounds of balancing; what is left unbalanced only weakens a bound. */
const ROUNDS = 24;

/** Lines that stand furthest outside the window of their side, or at its end; and whether the side costs anything. */
function pullersAt({ sides, weight }: ArcTerm, { j, q, k }: Lengths): { pullers: Puller[]; charged: boolean[] } {
  const [low, high] = weight.free;
  const pullers: Puller[] = [];
  const charged = sides.map((lines, side) => {
    const out = lines.flatMap((line, index) => {
      const laxity = line.cos * j + line.sin * q - k + line.rest;
      return [
        { side, index, line, way: 1 as const, by: laxity - high },
        { side, index, line, way: -1 as const, by: low - laxity },
      ];
    });
    const worst = Math.max(0, ...out.map((o) => o.by));
    pullers.push(...out.filter((o) => o.by >= worst - SAME));
    return worst > SAME;
  });
  return { pullers, charged };
}

/**
 * The pull of the arc where a construct has settled. A side whose window is broken pulls with its whole weight; a line
 * at the end of its window pulls as much as it takes to balance the other slopes there. The balance is worked out by
 * going round the moves of the lengths; what remains of it only makes bounds weaker.
 */
export function arcPullAt(tied: Tied, arc: ArcTerm, at: Lengths): ArcPull {
  const { pullers, charged } = pullersAt(arc, at);
  const w = arc.weight.weight;
  const pulls = pullers.map(({ side }) => {
    const beside = pullers.filter((p) => p.side === side).length;
    return charged[side] ? w / beside : 0;
  });
  const footing = new Footing(tied, at);
  const gain = (move: readonly number[], { line, way }: Puller) =>
    way * (line.cos * (move[0] ?? 0) + line.sin * (move[1] ?? 0) - (move[2] ?? 0));
  for (let round = 0; round < ROUNDS && pullers.length > 0; round++) {
    let worst = -SAME;
    let against: readonly number[] | null = null;
    for (const move of MOVES) {
      const slope = pullers.reduce((sum, p, i) => sum + (pulls[i] as number) * gain(move, p), footing.slopeOf(move));
      if (slope < worst) {
        worst = slope;
        against = move;
      }
    }
    if (!against) break;
    const move = against;
    const square = pullers.reduce((sum, p) => sum + gain(move, p) ** 2, 0);
    if (square < SAME) break;
    for (const [i, p] of pullers.entries())
      pulls[i] = Math.max(0, Math.min(w, (pulls[i] as number) - (worst * gain(move, p)) / square));
    fitSides(pulls, pullers, { charged, weight: w });
  }
  const sums = arc.sides.map((lines) => lines.map(() => 0));
  for (const [i, { side, index, way }] of pullers.entries()) {
    const side0 = sums[side] as number[];
    side0[index] = (side0[index] ?? 0) + way * (pulls[i] as number);
  }
  return sums;
}

/** Keeps the pulls of a side together at no more than the weight, and at the weight where its window is broken. */
function fitSides(
  pulls: number[],
  pullers: readonly Puller[],
  { charged, weight }: { charged: readonly boolean[]; weight: number },
): void {
  for (const [side, broken] of charged.entries()) {
    const mine = pullers.flatMap((p, i) => (p.side === side ? [i] : []));
    const sum = mine.reduce((s, i) => s + (pulls[i] as number), 0);
    const off = sum - weight;
    if (off > 0 || (broken && off < 0))
      for (const i of mine) pulls[i] = sum > 0 ? ((pulls[i] as number) * weight) / sum : weight / mine.length;
  }
}
