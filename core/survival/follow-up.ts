import { cannot, type Outcome, ok } from '../measure/outcome.ts';

/** One joint followed: until the event, or until it was last seen without it. */
export interface FollowUp {
  /** Time from operation to event or last sight, any one unit, 0 or more. */
  readonly time: number;
  /** What ended it: `null` = still without event when last seen (censored), else the name of the event. */
  readonly event: string | null;
}

/** Deaths and leavings at one time. Censored joints are still at risk at the time at which they were last seen. */
export interface AtTime {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly byCause: ReadonlyMap<string, number>;
}

/**
 * SURV-1: the table of times at which an event happened, ascending, with the number at risk just before. Refuses an empty
 * list and a time that is not a finite number of 0 or more. Order of entry changes nothing.
 */
export function eventTable(followUps: readonly FollowUp[]): Outcome<readonly AtTime[]> {
  const bad = followUps.findIndex((f) => !Number.isFinite(f.time) || f.time < 0);
  if (followUps.length === 0 || bad >= 0)
    return cannot({
      code: followUps.length === 0 ? 'nobody-followed' : 'time-not-usable',
      message: followUps.length === 0 ? 'There is no follow-up.' : `Follow-up ${bad + 1} has no usable time.`,
      field: `followUps[${Math.max(0, bad)}].time`,
      mend: 'Give a time of 0 or more for each joint.',
    });
  const sorted = followUps.toSorted((a, b) => a.time - b.time);
  const table: AtTime[] = [];
  for (let i = 0; i < sorted.length; ) {
    const { time } = sorted[i]!;
    const byCause = new Map<string, number>();
    let events = 0;
    const first = i;
    for (; sorted[i]?.time === time; i++) {
      const { event } = sorted[i]!;
      if (event === null) continue;
      events++;
      byCause.set(event, (byCause.get(event) ?? 0) + 1);
    }
    if (events > 0) table.push({ time, atRisk: sorted.length - first, events, byCause });
  }
  return ok(table);
}
