import { leastAt } from './curve.ts';
import { Footing, type Lengths, type Tied } from './settle.ts';
import type { Ties } from './ties.ts';

/**
 * What one millimetre of each difference costs where the best construct so far has settled: the pull between femur
 * and tibia in extension, between femur and tibia in flexion, and between the femur's two faces, cost per mm.
 */
export interface Tension {
  readonly jLessK: number;
  readonly qLessK: number;
  readonly qLessJ: number;
}

export const SLACK: Tension = { jLessK: 0, qLessK: 0, qLessJ: 0 };

/** What one mm of each length earns when the differences are paid at the tension: negative = a mm up costs that much. */
export const priceOfJ = (t: Tension): number => t.qLessJ - t.jLessK;
export const priceOfQ = (t: Tension): number => -t.qLessK - t.qLessJ;
export const priceOfK = (t: Tension): number => t.jLessK + t.qLessK;

/** Least of what the differences cost beyond the tension; minus infinity where the tension is steeper than they are. */
export const leastBeyond = (ties: Ties, t: Tension): number =>
  leastAt(ties.jLessK, t.jLessK) + leastAt(ties.qLessK, t.qLessK) + leastAt(ties.qLessJ, t.qLessJ);

interface Span {
  readonly low: number;
  readonly high: number;
}

/** A number of the span: its middle, or its only end, or zero. */
function within({ low, high }: Span): number {
  return low > 0 ? low : high < 0 ? high : 0;
}

/**
 * The tension at a settled point. There the pulls of the six curves are in balance: on each length the pull of its own
 * curve and of its two differences add up to nothing, each pull somewhere between its curve's slopes on either side.
 * One such balance is worked out, the middle one where there are several; that there is one is what makes the point
 * the least (docs/decisions/solver.md). Any other tension would still give true bounds, only weaker ones.
 */
export function tensionAt(t: Tied, at: Lengths): Tension {
  const { up, down } = new Footing(t, at);
  const span = (i: number): Span => ({ low: -(down[i] as number), high: up[i] as number });
  const k = span(2);
  const extension = span(3);
  const flexion = span(4);
  const femoral = span(5);
  // What extension and flexion may pull, given the pull w within the femur: balance on J, and on q.
  const j = { low: -(up[0] as number), high: down[0] as number };
  const q = { low: -(up[1] as number), high: down[1] as number };
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
  return { jLessK, qLessK, qLessJ: w };
}
