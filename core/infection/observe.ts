import { dayNumber, daysBetween } from '../laboratory/day.ts';
import { type LabSeries, labSeries } from '../laboratory/series.ts';
import type { Known } from '../measure/known.ts';
import type { Reason } from '../measure/outcome.ts';
import { AT, CELLS, everyCell, NOTHING_KNOWN, type Observation } from './cells.ts';
import type { InfectionFindings } from './findings.ts';
import { cultureFaults, observeCultures } from './observe-cultures.ts';
import { type LabAnswer, observeLab } from './observe-lab.ts';
import type { TestId } from './tests.ts';

export interface Observed {
  readonly known: Observation;
  readonly lab: readonly LabAnswer[];
  readonly series: LabSeries;
  /** Faults of the record: each names its field; what is at fault is not scored. */
  readonly faults: readonly Reason[];
}

/** Days since the last operation below which a definition's limits for the acute case hold, where it has any. INF-6. */
export const ACUTE_BELOW_DAYS = 90;
/** Loosening counts for EBJIS within this time of implantation. */
const FIVE_YEARS_DAYS = 5 * 365.25;

/**
 * What the record says about every test. Absent and unknown stay unknown; results of another day than the rules allow
 * are not used (LAB-7). `today` is the day of reading, YYYY-MM-DD: results after it are refused.
 */
export function observe(findings: InfectionFindings, today: string): Observed {
  const decisionOn = findings.decisionOn ?? today;
  const faults = dayFaults(findings, today);
  const operation = realDay(findings.lastOperationOn);
  const series = labSeries(findings.labResults ?? [], today);
  const window = { decisionOn, ...(operation === undefined ? {} : { notBefore: operation }) };
  const lab = observeLab(series, window);
  const masks = [...NOTHING_KNOWN];
  const set = (test: TestId, mask: number) => {
    masks[AT[test]] = mask;
  };
  for (const answer of lab) set(answer.test, answer.mask);
  const badCultures = cultureFaults(findings.cultures ?? [], today);
  const usable = (findings.cultures ?? []).filter(
    (c) => !badCultures.some((f) => f.field?.startsWith(`cultures[${c.id}]`)),
  );
  for (const [test, mask] of observeCultures(usable, window)) set(test, mask);
  for (const [test, mask] of clinical(findings)) set(test, mask);
  const since = operation === undefined ? null : daysBetween(operation, decisionOn);
  if (since !== null && since >= 0) set('phase', since < ACUTE_BELOW_DAYS ? 2 : 1);
  return { known: masks, lab, series, faults: [...faults, ...series.marked.map((m) => m.reason), ...badCultures] };
}

const realDay = (day: string | undefined): string | undefined =>
  day !== undefined && dayNumber(day) !== null ? day : undefined;

function dayFaults(findings: InfectionFindings, today: string): readonly Reason[] {
  const fields = ['decisionOn', 'lastOperationOn', 'implantedOn', 'looseningSeenOn'] as const;
  return fields.flatMap((field): Reason[] => {
    const day = findings[field];
    if (day === undefined) return [];
    if (dayNumber(day) === null)
      return [
        { code: 'impossible-date', message: `${day} is no day of the calendar.`, field, mend: 'Give YYYY-MM-DD.' },
      ];
    if (field !== 'decisionOn' && (daysBetween(day, today) ?? 0) < 0)
      return [{ code: 'future-date', message: `${day} lies after today, ${today}.`, field, mend: 'Correct the day.' }];
    return [];
  });
}

const yesNo = (known: Known | undefined): number => (known === 'yes' ? 2 : known === 'no' ? 1 : 3);
const sign = (result: 'negative' | 'positive' | 'unknown' | undefined): number =>
  result === 'positive' ? 2 : result === 'negative' ? 1 : 3;

function clinical(f: InfectionFindings): readonly (readonly [TestId, number])[] {
  return [
    ['sinus', yesNo(f.sinus)],
    ['wound-problem', yesNo(f.woundHealingProblem)],
    ['fever', yesNo(f.feverOrBacteraemia)],
    ['unexplained', f.otherCause === 'yes' ? 1 : f.otherCause === 'no' ? 2 : 3],
    ['bone-scan', sign(f.boneScan)],
    ['leukocyte-scan', sign(f.leukocyteScan)],
    ['leukocyte-marrow-scan', sign(f.leukocyteMarrowScan)],
    ['local-signs', localSigns(f)],
    ['loosening', loosening(f)],
    ['purulence', purulence(f)],
    ['histology', histology(f)],
  ];
}

const LOCAL_SIGNS = ['pain', 'swelling', 'redness', 'warmth', 'loss-of-function'] as const;

function localSigns(f: InfectionFindings): number {
  const states = LOCAL_SIGNS.map((s) => f.localSigns?.[s] ?? 'unknown');
  const least = states.filter((s) => s === 'yes').length;
  const most = states.filter((s) => s !== 'no').length;
  let mask = 0;
  for (let n = least; n <= most; n++) mask |= 1 << Math.min(n, 2);
  return mask;
}

/** Loosening counts only when it was seen within five years of implantation; without the days it may be either. */
function loosening(f: InfectionFindings): number {
  if (f.loosening === 'no') return 1;
  if (f.loosening !== 'yes') return everyCell('loosening');
  const after =
    f.implantedOn === undefined || f.looseningSeenOn === undefined
      ? null
      : daysBetween(f.implantedOn, f.looseningSeenOn);
  return after === null ? 6 : after <= FIVE_YEARS_DAYS ? 4 : 2;
}

/** INF-10: purulence with the cause that is known for it; a cause not looked for does not explain it. */
function purulence(f: InfectionFindings): number {
  if (f.purulence === 'no') return 1;
  if (f.purulence !== 'yes') return everyCell('purulence');
  return f.context?.metalReaction === 'yes' ? 2 : f.context?.crystals === 'yes' ? 4 : 8;
}

function histology(f: InfectionFindings): number {
  const at = CELLS.histology.findIndex((c) => c.label === f.histology);
  return at < 0 ? everyCell('histology') : 1 << at;
}
