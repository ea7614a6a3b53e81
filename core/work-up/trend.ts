import { dayNumber } from '../laboratory/day.ts';
import type { LabReading } from '../laboratory/lab-result.ts';
import type { LabSeries } from '../laboratory/series.ts';
import { readTimeline } from './timeline.ts';
import type { WorkUp } from './work-up.ts';

/** One dated value, in the standard unit of its analyte. */
export interface TrendPoint {
  readonly id: string;
  readonly on: string;
  /** Days since 1970-01-01. */
  readonly day: number;
  readonly value: number;
  readonly comparator: '<' | '>' | null;
}

export interface Trend {
  /** mg/L. */
  readonly crp: readonly TrendPoint[];
  /** mm/h. */
  readonly esr: readonly TrendPoint[];
  readonly operations: readonly {
    readonly id: string;
    readonly day: number;
    readonly on: string;
    readonly text: string;
  }[];
  /** `to` null = still going on at `today`. */
  readonly antibiotics: readonly {
    readonly id: string;
    readonly from: number;
    readonly to: number | null;
    readonly text: string;
  }[];
  /** Readings of CRP and ESR without a day: not on the chart, and said so. */
  readonly undated: number;
}

/**
 * WU-7: CRP and ESR over time with operations and antibiotics, oldest first, from sound dated values alone. Operations of the
 * history with a full date and those of the timeline; one of the same day in both is one.
 */
export function trendOf(record: WorkUp, series: LabSeries, today: string): Trend {
  const { spans } = readTimeline(record.timeline, today);
  const [crp, esr] = [series.readings.get('crp') ?? [], series.readings.get('esr') ?? []];
  const timed = spans
    .filter((s) => s.entry.kind === 'operation')
    .map((s) => ({ id: s.entry.id, day: s.from, on: s.entry.from, text: s.entry.text }));
  const told = (record.history?.operations ?? []).flatMap((o) => {
    const day = o.on === undefined ? null : dayNumber(o.on);
    return day === null || o.on === undefined || timed.some((t) => t.day === day)
      ? []
      : [{ id: o.id, day, on: o.on, text: o.kind.replaceAll('-', ' ') }];
  });
  return {
    crp: pointsOf(crp),
    esr: pointsOf(esr),
    operations: [...timed, ...told].toSorted((a, b) => a.day - b.day || (a.id < b.id ? -1 : 1)),
    antibiotics: spans
      .filter((s) => s.entry.kind === 'antibiotic')
      .map((s) => ({ id: s.entry.id, from: s.from, to: s.to, text: s.entry.text })),
    undated: [...crp, ...esr].filter((r) => r.takenOn === null).length,
  };
}

function pointsOf(readings: readonly LabReading[]): readonly TrendPoint[] {
  return readings.flatMap((r) => {
    const day = r.takenOn === null ? null : dayNumber(r.takenOn);
    if (day === null || r.takenOn === null || r.of.kind !== 'number') return [];
    return [{ id: r.id, on: r.takenOn, day, value: r.of.value, comparator: r.of.comparator }];
  });
}
