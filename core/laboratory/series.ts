import type { Outcome, Reason } from '../measure/outcome.ts';
import type { AnalyteId } from './analyte.ts';
import { dayNumber } from './day.ts';
import { type LabReading, type LabResult, readLabResult } from './lab-result.ts';

/** A result that was saved as entered but is not used, with why. */
export interface MarkedResult {
  readonly entered: LabResult;
  readonly reason: Reason;
}

export interface LabSeries {
  /** By analyte, oldest first, undated before dated; ties by id. */
  readonly readings: ReadonlyMap<AnalyteId, readonly LabReading[]>;
  readonly marked: readonly MarkedResult[];
  readonly warnings: readonly Reason[];
}

const byDay = (a: LabReading, b: LabReading) =>
  (a.takenOn ?? '').localeCompare(b.takenOn ?? '') || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

const sameValue = (a: LabReading, b: LabReading): boolean => JSON.stringify(a.of) === JSON.stringify(b.of);

/**
 * LAB-6: the series of each analyte. Every repeated tap stays; two different values for one sample (same analyte, day
 * and sample name) are both marked and neither is used, the same value twice is one. Order of entry changes nothing.
 */
export function labSeries(results: readonly LabResult[], today: string): LabSeries {
  const marked: MarkedResult[] = [];
  const warnings: Reason[] = [];
  const all: LabReading[] = [];
  for (const entered of results.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))) {
    const read: Outcome<LabReading> = readLabResult(entered, today);
    if (read.ok) {
      all.push(read.value);
      warnings.push(...read.warnings);
    } else marked.push({ entered, reason: read.reason });
  }
  const readings = new Map<AnalyteId, LabReading[]>();
  for (const group of bySample(all)) {
    const first = group[0]!;
    if (group.every((r) => sameValue(r, first))) {
      readings.set(first.analyte, [...(readings.get(first.analyte) ?? []), first]);
      continue;
    }
    for (const r of group)
      marked.push({
        entered: r.entered,
        reason: {
          code: 'two-values-for-one-sample',
          message: `One sample has ${group.length} different values for ${r.analyte}.`,
          field: `labResults[${r.id}].value`,
          mend: 'Keep the right one, or name the samples apart.',
        },
      });
  }
  return { readings: new Map([...readings].map(([id, list]) => [id, list.toSorted(byDay)])), marked, warnings };
}

const sampleKey = (r: LabReading): string => JSON.stringify([r.analyte, r.takenOn, r.entered.sample ?? null]);

function bySample(all: readonly LabReading[]): readonly (readonly LabReading[])[] {
  const groups = new Map<string, LabReading[]>();
  for (const r of all) groups.set(sampleKey(r), [...(groups.get(sampleKey(r)) ?? []), r]);
  return [...groups.values()];
}

export interface ResultInUse {
  /** The reading used; several only where one day has several named samples. */
  readonly used: readonly LabReading[];
  /** Every other reading of the analyte, with why it is not used. */
  readonly others: readonly {
    readonly reading: LabReading;
    readonly why: 'older' | 'after-decision' | 'before-operation' | 'undated';
  }[];
}

/**
 * LAB-7: which result a definition uses: the newest taken on or before `decisionOn` and on or after `notBefore` (the
 * last operation on the joint), both `YYYY-MM-DD`. Of several named samples of that day all are used, and a comparison
 * holds only where they agree. Undated results are used only where no dated one exists. The others are listed.
 */
export function resultInUse(
  readings: readonly LabReading[],
  within: { readonly decisionOn: string; readonly notBefore?: string },
): ResultInUse {
  const end = dayNumber(within.decisionOn) ?? Number.POSITIVE_INFINITY;
  const start = (within.notBefore === undefined ? null : dayNumber(within.notBefore)) ?? Number.NEGATIVE_INFINITY;
  const day = (r: LabReading) => (r.takenOn === null ? null : dayNumber(r.takenOn));
  const inside = readings.filter((r) => {
    const at = day(r);
    return at !== null && at <= end && at >= start;
  });
  const dated = readings.some((r) => r.takenOn !== null);
  const newest = Math.max(...inside.map((r) => day(r) ?? Number.NEGATIVE_INFINITY));
  const used = dated ? inside.filter((r) => day(r) === newest) : readings;
  const others = readings
    .filter((r) => !used.includes(r))
    .map((reading) => {
      const at = day(reading);
      const why = at === null ? 'undated' : at > end ? 'after-decision' : at < start ? 'before-operation' : 'older';
      return { reading, why } as const;
    });
  return { used, others };
}
