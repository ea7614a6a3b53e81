import { type Outcome, ok } from '../measure/outcome.ts';
import { Z95 } from '../measure/quantity.ts';
import { eventTable, type FollowUp } from './follow-up.ts';

/** Scale on which the interval is symmetric: the share itself, its logarithm, or the logarithm of minus its logarithm. */
export type IntervalScale = 'plain' | 'log' | 'log-log';

export interface SurvivalStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  /** Share without event from this time on, 0 to 1. */
  readonly survival: number;
  /** Standard error by Greenwood; null where nobody is left, for there it has none. */
  readonly standardError: number | null;
  /** 95 % interval within 0 to 1; null where nobody is left. */
  readonly interval: readonly [number, number] | null;
}

/**
 * SURV-2: share without event over time by Kaplan and Meier (J Am Stat Assoc 1958;53:457), one step a time of an event;
 * before the first it is 1. Standard error by Greenwood's formula. Interval on the chosen scale; log-log keeps it inside 0
 * to 1 by itself, the others are cut there. Assumes that leaving has nothing to do with the event: with deaths before
 * revision it overstates the revisions, use `cumulativeIncidence`.
 */
export function kaplanMeier(followUps: readonly FollowUp[], scale: IntervalScale): Outcome<readonly SurvivalStep[]> {
  const table = eventTable(followUps);
  if (!table.ok) return table;
  let survival = 1;
  let greenwood = 0;
  return ok(
    table.value.map(({ time, atRisk, events }) => {
      survival *= (atRisk - events) / atRisk;
      if (events === atRisk) return { time, atRisk, events, survival: 0, standardError: null, interval: null };
      greenwood += events / (atRisk * (atRisk - events));
      const root = Math.sqrt(greenwood);
      const interval = intervalOf(survival, root, scale);
      return { time, atRisk, events, survival, standardError: survival * root, interval };
    }),
  );
}

/** `root` = standard error of the logarithm of the share, which lies strictly between 0 and 1. */
function intervalOf(survival: number, root: number, scale: IntervalScale): readonly [number, number] {
  if (scale === 'plain') return cut(survival - Z95 * survival * root, survival + Z95 * survival * root);
  if (scale === 'log') return cut(survival * Math.exp(-Z95 * root), survival * Math.exp(Z95 * root));
  const spread = Math.exp((Z95 * root) / Math.abs(Math.log(survival)));
  return [survival ** spread, survival ** (1 / spread)];
}

const cut = (low: number, high: number): readonly [number, number] => [Math.max(0, low), Math.min(1, high)];

/** Share without event at a time: that of the last step on or before it, 1 before the first. */
export const survivalAt = (steps: readonly SurvivalStep[], time: number): number =>
  steps.findLast((s) => s.time <= time)?.survival ?? 1;

export interface MedianTime {
  /** Null where the curve does not come down to one half. */
  readonly median: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * SURV-2: time by which half have had the event, with the interval read off the limits of the curve. Where a curve rests
 * at exactly one half, the middle of that rest is given. In the unit of the follow-up.
 */
export function medianTime(steps: readonly SurvivalStep[]): MedianTime {
  const points = (of: (s: SurvivalStep) => number | null) => steps.map((s) => ({ time: s.time, share: of(s) }));
  return {
    median: crossing(points((s) => s.survival)),
    low: crossing(points((s) => s.interval?.[0] ?? null)),
    high: crossing(points((s) => s.interval?.[1] ?? null)),
  };
}

/** Shares closer to one half than this rest there; rounding of the product is far smaller. */
const HALF_TOLERANCE = 1e-12;

function crossing(points: readonly { readonly time: number; readonly share: number | null }[]): number | null {
  const at = points.findIndex((p) => p.share !== null && p.share <= 0.5 + HALF_TOLERANCE);
  const found = points[at];
  if (!found) return null;
  const rests = Math.abs((found.share ?? 0) - 0.5) <= HALF_TOLERANCE;
  const next = points[at + 1];
  return rests && next ? (found.time + next.time) / 2 : found.time;
}
