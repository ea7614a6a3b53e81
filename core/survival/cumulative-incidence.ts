import { type Outcome, ok } from '../measure/outcome.ts';
import { Z95 } from '../measure/quantity.ts';
import { type AtTime, eventTable, type FollowUp } from './follow-up.ts';

export interface IncidenceStep {
  readonly time: number;
  readonly atRisk: number;
  /** Events of the cause asked about. */
  readonly events: number;
  /** Share that has had the event of this cause by this time, 0 to 1. */
  readonly incidence: number;
  readonly standardError: number;
  /** 95 % interval on the log-log scale; null while the incidence is 0 and where it is 1. */
  readonly interval: readonly [number, number] | null;
}

/**
 * SURV-4: share that has had one kind of event by a time when others, such as death, come in between (Aalen and Johansen,
 * Scand J Stat 1978;5:141). One step a time of any event. Standard error by the delta method (Marubini and Valsecchi,
 * Analysing Survival Data 1995, chapter 10); with a single cause it is Greenwood's. The incidences of all causes and the
 * share without any event add up to 1 at every time.
 */
export function cumulativeIncidence(followUps: readonly FollowUp[], cause: string): Outcome<readonly IncidenceStep[]> {
  const table = eventTable(followUps);
  if (!table.ok) return table;
  const rows = cumulate(table.value, cause);
  return ok(
    rows.map((row, i) => {
      const standardError = Math.sqrt(Math.max(0, variance(rows.slice(0, i + 1))));
      const { time, atRisk, events, incidence } = row;
      return { time, atRisk, events, incidence, standardError, interval: intervalOf(incidence, standardError) };
    }),
  );
}

interface Row {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly all: number;
  /** Share without any event just before. */
  readonly before: number;
  readonly incidence: number;
}

function cumulate(table: readonly AtTime[], cause: string): readonly Row[] {
  let before = 1;
  let incidence = 0;
  return table.map(({ time, atRisk, events: all, byCause }) => {
    const events = byCause.get(cause) ?? 0;
    incidence += (before * events) / atRisk;
    const row = { time, atRisk, events, all, before, incidence };
    before *= (atRisk - all) / atRisk;
    return row;
  });
}

/** Variance of the incidence at the last of the rows. The first term has no weight where everyone at risk had an event. */
function variance(rows: readonly Row[]): number {
  const last = rows.at(-1)!.incidence;
  let sum = 0;
  for (const { atRisk: n, events: d, all, before, incidence } of rows) {
    const later = last - incidence;
    if (n > all) sum += (later ** 2 * all) / (n * (n - all));
    sum += (before ** 2 * (n - d) * d) / n ** 3 - (2 * later * before * d) / n ** 2;
  }
  return sum;
}

function intervalOf(incidence: number, standardError: number): readonly [number, number] | null {
  if (incidence <= 0 || incidence >= 1) return null;
  const log = Math.log(incidence);
  const spread = Math.exp((Z95 * standardError) / Math.abs(incidence * log));
  return [incidence ** spread, incidence ** (1 / spread)];
}

/** Share by a time: that of the last step on or before it, 0 before the first. */
export const incidenceAt = (steps: readonly IncidenceStep[], time: number): number =>
  steps.findLast((s) => s.time <= time)?.incidence ?? 0;
