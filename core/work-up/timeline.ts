import { dayNumber } from '../laboratory/day.ts';
import type { Reason } from '../measure/outcome.ts';
import type { WorkUp } from './work-up.ts';

export type TimelineEntry = NonNullable<WorkUp['timeline']>[number];

/** One entry with sound days, as counts of days; `to` null = still going on. */
export interface Span {
  readonly entry: TimelineEntry;
  readonly from: number;
  readonly to: number | null;
}

export interface ReadTimeline {
  /** Sound entries, oldest first. */
  readonly spans: readonly Span[];
  /** Entries that are shown as they were entered and used for nothing, with why. */
  readonly faults: readonly Reason[];
}

const fault = (entry: TimelineEntry, part: 'from' | 'to', words: Omit<Reason, 'field'>): Reason => ({
  ...words,
  field: `timeline[${entry.id}].${part}`,
});

function faultOf(entry: TimelineEntry, today: number): Reason | null {
  const from = dayNumber(entry.from);
  if (from === null)
    return fault(entry, 'from', {
      code: 'impossible-date',
      message: `${entry.from || 'Nothing'} is no day of the calendar.`,
      mend: 'Give the day as YYYY-MM-DD.',
    });
  if (from > today)
    return fault(entry, 'from', {
      code: 'future-date',
      message: `${entry.from} lies after today.`,
      mend: 'Enter what has begun.',
    });
  if (entry.to === undefined) return null;
  const to = dayNumber(entry.to);
  if (to === null)
    return fault(entry, 'to', {
      code: 'impossible-date',
      message: `${entry.to || 'Nothing'} is no day of the calendar.`,
      mend: 'Give the day as YYYY-MM-DD, or leave it empty while it goes on.',
    });
  return to < from
    ? fault(entry, 'to', {
        code: 'ends-before-it-begins',
        message: `It ends on ${entry.to}, before it begins on ${entry.from}.`,
        mend: 'Correct one of the two days.',
      })
    : null;
}

/** The timeline with its days checked: what cannot be read is named and left out, order of entry changes nothing. */
export function readTimeline(timeline: WorkUp['timeline'], today: string): ReadTimeline {
  const at = dayNumber(today) ?? Number.POSITIVE_INFINITY;
  const faults: Reason[] = [];
  const spans: Span[] = [];
  for (const entry of timeline ?? []) {
    const wrong = faultOf(entry, at);
    if (wrong) {
      faults.push(wrong);
      continue;
    }
    const from = dayNumber(entry.from);
    if (from !== null) spans.push({ entry, from, to: entry.to === undefined ? null : dayNumber(entry.to) });
  }
  const order = (a: Span, b: Span) => a.from - b.from || (a.entry.id < b.entry.id ? -1 : 1);
  return {
    spans: spans.toSorted(order),
    faults: faults.toSorted((a, b) => ((a.field ?? '') < (b.field ?? '') ? -1 : 1)),
  };
}
