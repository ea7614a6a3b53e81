import { dayNumber } from '../laboratory/day.ts';
import type { LabReading } from '../laboratory/lab-result.ts';
import type { LabSeries } from '../laboratory/series.ts';
import type { Reason } from '../measure/outcome.ts';
import { readTimeline, type Span } from './timeline.ts';
import { type TrendPoint, trendOf } from './trend.ts';
import type { WorkUp } from './work-up.ts';

/** One fact between two stages: what is known, in words with unit and day, and what published work says of it. */
export interface ReadinessFact {
  readonly id: 'since-stage' | 'antibiotic-days' | 'holiday-days' | 'crp' | 'esr' | 'aspirate' | 'spacer-culture';
  readonly label: string;
  /** Days, or the newest value; null = not known. */
  readonly value: number | null;
  /** Null = not known, shown as missing. */
  readonly text: string | null;
  readonly remark: string;
  readonly source: string;
}

export interface Readiness {
  /** Day of the last operation of the timeline, from which everything is counted; null = none entered, then nothing is. */
  readonly stageOn: string | null;
  readonly facts: readonly ReadinessFact[];
  readonly faults: readonly Reason[];
  readonly remark: string;
}

/** Stands above the facts. */
export const NO_CUT_OFF =
  'No cut-off for reimplantation is proven, of any marker or interval. These are facts to weigh, not a verdict; definitions of infection were not validated with a spacer in place.';

interface Since {
  readonly day: number;
  readonly today: number;
}

/**
 * WU-6: facts for reimplantation, counted from the newest operation of the timeline up to `today` (YYYY-MM-DD): days since then, days
 * on antibiotics (overlapping courses once, first and last day counted), days without, CRP and ESR with their course, cells and
 * cultures of aspirates. No verdict and no threshold. Sources: published reviews and series as named with each fact.
 */
export function readiness(record: WorkUp, series: LabSeries, today: string): Readiness {
  const { spans, faults } = readTimeline(record.timeline, today);
  const operation = spans.findLast((s) => s.entry.kind === 'operation');
  const at = dayNumber(today);
  if (!operation || at === null) return { stageOn: null, facts: [], faults, remark: NO_CUT_OFF };
  const since: Since = { day: operation.from, today: at };
  const { crp, esr } = trendOf(record, series, today);
  return {
    stageOn: operation.entry.from,
    facts: [
      sinceStage(since),
      ...antibioticFacts(spans, since),
      markerFact('crp', crp, since),
      markerFact('esr', esr, since),
      aspirateFact(series, since),
      cultureFact(record, since),
    ],
    faults: [...faults, ...contradictions(spans, since)],
    remark: NO_CUT_OFF,
  };
}

const days = (n: number): string => `${n} day${n === 1 ? '' : 's'}`;

const sinceStage = ({ day, today }: Since): ReadinessFact => ({
  id: 'since-stage',
  label: 'Since the last operation',
  value: today - day,
  text: `${days(today - day)} (${((today - day) / 7).toFixed(1)} weeks)`,
  remark: 'No benefit of a long interval was found; the best interval is not known (reported limits 4 to 18 weeks).',
  source: 'Review of 11 studies',
});

/** Days of antibiotics since the operation, each day once. */
function coveredDays(spans: readonly Span[], { day, today }: Since): ReadonlySet<number> {
  const covered = new Set<number>();
  for (const s of spans.filter((x) => x.entry.kind === 'antibiotic'))
    for (let d = Math.max(s.from, day); d <= Math.min(s.to ?? today, today); d++) covered.add(d);
  return covered;
}

function antibioticFacts(spans: readonly Span[], since: Since): readonly ReadinessFact[] {
  const covered = coveredDays(spans, since);
  const last = covered.size === 0 ? null : Math.max(...covered);
  const free = last === null ? null : since.today - last;
  return [
    {
      id: 'antibiotic-days',
      label: 'Days on antibiotics',
      value: covered.size === 0 ? null : covered.size,
      text: covered.size === 0 ? null : `${days(covered.size)}${free === 0 ? ', going on' : ''}`,
      remark:
        'Usually 6 weeks. Six against twelve weeks: infection persisted in 18.1 % against 9.4 % (difference 8.7, 1.8 to 15.6).',
      source: 'Randomised trial, n 410',
    },
    {
      id: 'holiday-days',
      label: 'Days without antibiotics',
      value: free,
      text: free === null ? null : days(free),
      remark: 'About two weeks are common; no evidence that a holiday is needed.',
      source: 'Review of readiness for reimplantation',
    },
  ];
}

const MARKERS = {
  crp: {
    label: 'CRP',
    unit: 'mg/L',
    remark:
      'Need not be normal; a falling course counts. Best single value reported 8.25 mg/L (82 / 84 %), not proven.',
  },
  esr: {
    label: 'ESR',
    unit: 'mm/h',
    remark: 'Need not be normal; a falling course counts. Best single value reported 45 mm/h (55 / 87 %), not proven.',
  },
} as const;

const shown = (p: TrendPoint): string => `${p.comparator ?? ''}${Number(p.value.toFixed(1))}`;

/** Falling or rising when every step goes that way; limits of an assay (`<`, `>`) leave the course open. */
function course(points: readonly TrendPoint[]): string {
  if (points.length < 2) return 'one value, no course';
  if (points.some((p) => p.comparator !== null)) return 'course not clear from limits of the assay';
  const steps = points.slice(1).map((p, i) => Math.sign(p.value - (points[i]?.value ?? p.value)));
  if (steps.every((s) => s < 0)) return 'falling';
  if (steps.every((s) => s > 0)) return 'rising';
  return steps.every((s) => s === 0) ? 'unchanged' : 'up and down';
}

function markerFact(id: 'crp' | 'esr', points: readonly TrendPoint[], { day }: Since): ReadinessFact {
  const { label, unit, remark } = MARKERS[id];
  const after = points.filter((p) => p.day >= day);
  const newest = after.at(-1);
  const values = after.map((p) => `${shown(p)} (${p.on})`).join(', ');
  return {
    id,
    label: `${label} since then`,
    value: newest?.value ?? null,
    text: newest ? `${values} ${unit}: ${course(after)}` : null,
    remark,
    source: 'Reviews and single series of second stages',
  };
}

const after = (readings: readonly LabReading[], day: number): readonly LabReading[] =>
  readings.filter((r) => r.takenOn !== null && (dayNumber(r.takenOn) ?? -1) >= day);

function aspirateFact(series: LabSeries, { day }: Since): ReadinessFact {
  const wbc = after(series.readings.get('synovial-wbc') ?? [], day);
  const pmn = after(series.readings.get('synovial-pmn') ?? [], day);
  const last = wbc.at(-1);
  const tell = (r: LabReading, unit: string) =>
    r.of.kind === 'number' ? `${r.of.comparator ?? ''}${Math.round(r.of.value)} ${unit} (${r.takenOn})` : r.of.word;
  const told = [...wbc.map((r) => tell(r, 'cells/uL')), ...pmn.map((r) => tell(r, '% PMN'))];
  return {
    id: 'aspirate',
    label: 'Cells of the aspirate since then',
    value: last?.of.kind === 'number' ? last.of.value : null,
    text: told.length === 0 ? null : told.join(', '),
    remark:
      'Limits for chronic infection (3,000 cells, 80 %) do not hold with a spacer. Reported 4,450 cells/uL against culture (50 / 86.5 %).',
    source: 'Series of 94 knees with a spacer',
  };
}

function cultureFact(record: WorkUp, { day, today }: Since): ReadinessFact {
  const taken = (record.infection?.cultures ?? []).filter((c) => {
    const on = c.takenOn === undefined ? null : dayNumber(c.takenOn);
    return on !== null && on >= day && on <= today;
  });
  const count = (growth: (typeof taken)[number]['growth']) => taken.filter((c) => c.growth === growth).length;
  return {
    id: 'spacer-culture',
    label: 'Cultures since then',
    value: taken.length === 0 ? null : count('growth'),
    text:
      taken.length === 0
        ? null
        : `${count('growth')} with growth, ${count('none')} without, ${count('pending')} not yet read`,
    remark: 'Culture of a spacer aspirate finds 0 to 3.4 % of what is there (specificity 99 to 100 %): not routine.',
    source: 'Series of 94 knees with a spacer',
  };
}

/** A holiday that was entered over days of antibiotics contradicts them: named, and the days of antibiotics count. */
function contradictions(spans: readonly Span[], since: Since): readonly Reason[] {
  const covered = coveredDays(spans, since);
  return spans
    .filter((s) => s.entry.kind === 'holiday')
    .filter((s) => [...covered].some((d) => d >= s.from && d <= (s.to ?? since.today)))
    .map((s) => ({
      code: 'holiday-on-antibiotics',
      message: 'A time without antibiotics was entered over days of antibiotics; those days count as antibiotics.',
      field: `timeline[${s.entry.id}].from`,
      mend: 'Correct the days of one of the two.',
    }));
}
