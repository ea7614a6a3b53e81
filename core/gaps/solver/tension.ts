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

interface Span {
  readonly low: number;
  readonly high: number;
}

/** The number of the span that is nearest to nothing. */
function within({ low, high }: Span): number {
  return low > 0 ? low : high < 0 ? high : 0;
}

const shifted = ({ low, high }: Span, by: number): Span => ({ low: low + by, high: high + by });

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
  const { rise } = footing;
  const span = (i: number): Span => ({ low: -(rise[6 + i] as number), high: rise[i] as number });
  const k = shifted(span(2), on.k);
  const extension = span(3);
  const flexion = span(4);
  const femoral = span(5);
  // What extension and flexion may pull, given the pull w within the femur: balance on J, and on q.
  const j = { low: -(rise[0] as number) - on.j, high: (rise[6] as number) - on.j };
  const q = { low: -(rise[1] as number) - on.q, high: (rise[7] as number) - on.q };
  const w = within({
    low: Math.max(
      femoral.low,
      extension.low - j.high,
      q.low - flexion.high,
      extension.low + q.low - k.high,
      k.low - j.high - flexion.high,
    ),
    high: Math.min(
      femoral.high,
      extension.high - j.low,
      q.high - flexion.low,
      k.high - j.low - flexion.low,
      extension.high + q.high - k.low,
    ),
  });
  const e = { low: Math.max(extension.low, j.low + w), high: Math.min(extension.high, j.high + w) };
  const f = { low: Math.max(flexion.low, q.low - w), high: Math.min(flexion.high, q.high - w) };
  const jLessK = within({ low: Math.max(e.low, k.low - f.high), high: Math.min(e.high, k.high - f.low) });
  const qLessK = within({ low: Math.max(f.low, k.low - jLessK), high: Math.min(f.high, k.high - jLessK) });
  return { jLessK, qLessK, qLessJ: w, arc, arcOn: on };
}
