import { type ArcPull, arcBeyond, arcPullAt, pullOnLengths } from './arc-pull.ts';
import type { ArcTerm } from './arc-term.ts';
import { leastAt } from './curve.ts';
import { Footing } from './footing.ts';
import type { Lengths, Tied } from './settle.ts';
import type { Ties } from './ties.ts';

/**
 * What one millimetre of each difference costs where a construct has settled, cost per mm: the pull between femur and
 * tibia in extension, between femur and tibia in flexion, and between the femur's two faces; and the pull of the arc.
 */
export interface Tension {
  readonly jLessK: number;
  readonly qLessK: number;
  readonly qLessJ: number;
  /** Pull of each line of the arc, and of all of them on J, q and K. */
  readonly arc: ArcPull | null;
  readonly arcOn: Lengths;
}

/** What one mm of each length earns when all that ties the lengths is paid at the tension; negative = it costs. */
export const pricesAt = ({ jLessK, qLessK, qLessJ, arcOn }: Tension): Lengths => ({
  j: qLessJ - jLessK - arcOn.j,
  q: -qLessK - qLessJ - arcOn.q,
  k: jLessK + qLessK - arcOn.k,
});

/** Least of what ties the lengths beyond the tension; minus infinity where the tension is steeper than the ties are. */
export const leastBeyond = (ties: Ties, arc: ArcTerm | null, t: Tension): number =>
  leastAt(ties.jLessK, t.jLessK) +
  leastAt(ties.qLessK, t.qLessK) +
  leastAt(ties.qLessJ, t.qLessJ) +
  arcBeyond(arc, t.arc);

const footing = new Footing();

/** The number between two that is nearest to nothing. */
const nearest = (low: number, high: number): number => Math.max(low, Math.min(high, 0));

/**
 * The tension at a settled point. There the pulls of the six curves are in balance: on each length the pull of its own
 * curve, of its two differences and of the arc add up to nothing, each pull somewhere between its curve's slopes on
 * either side. One such balance is worked out, with the least pull where there are several; that there is one is what
 * makes the point the least (docs/decisions/solver.md). Any other tension would still give true bounds, only weaker ones.
 */
export function tensionAt(t: Tied, at: Lengths, term: ArcTerm | null): Tension {
  footing.on(t, at);
  const arc = term ? arcPullAt(footing, term, at) : null;
  const on = pullOnLengths(term, arc);
  const up = (i: number): number => footing.rise[i] as number;
  const down = (i: number): number => -(footing.rise[6 + i] as number);
  // What K, extension e, flexion f and the femur w may pull at least and at most.
  const kLow = down(2) + on.k;
  const kHigh = up(2) + on.k;
  const eLow = down(3);
  const eHigh = up(3);
  const fLow = down(4);
  const fHigh = up(4);
  // What e may pull more than w, and f may pull with w: balance on J, and on q.
  const jLow = -up(0) - on.j;
  const jHigh = -down(0) - on.j;
  const qLow = -up(1) - on.q;
  const qHigh = -down(1) - on.q;
  const w = nearest(
    Math.max(down(5), eLow - jHigh, qLow - fHigh, eLow + qLow - kHigh, kLow - jHigh - fHigh),
    Math.min(up(5), eHigh - jLow, qHigh - fLow, kHigh - jLow - fLow, eHigh + qHigh - kLow),
  );
  const e = [Math.max(eLow, jLow + w), Math.min(eHigh, jHigh + w)] as const;
  const f = [Math.max(fLow, qLow - w), Math.min(fHigh, qHigh - w)] as const;
  const jLessK = nearest(Math.max(e[0], kLow - f[1]), Math.min(e[1], kHigh - f[0]));
  const qLessK = nearest(Math.max(f[0], kLow - jLessK), Math.min(f[1], kHigh - jLessK));
  return { jLessK, qLessK, qLessJ: w, arc, arcOn: on };
}
