import type { AnalyteId } from '../laboratory/analyte.ts';
import { type CorrectedCounts, correctForBlood } from '../laboratory/blood-correction.ts';
import { daysBetween } from '../laboratory/day.ts';
import type { LabReading } from '../laboratory/lab-result.ts';
import { type LabSeries, type ResultInUse, resultInUse } from '../laboratory/series.ts';
import { CELLS, everyCell } from './cells.ts';
import type { TestId } from './tests.ts';

type Read = LabReading['of'];

/** Cells of a numeric test that a reading leaves possible; `<` and `>` leave every cell that they touch. INF-2. */
export function cellsOfNumber(test: TestId, of: Extract<Read, { kind: 'number' }>): number {
  let mask = 0;
  CELLS[test].forEach((cell, i) => {
    const [over, upTo] = [cell.over ?? Number.NEGATIVE_INFINITY, cell.upTo ?? Number.POSITIVE_INFINITY];
    const touches =
      of.comparator === '<'
        ? over < of.value && (over > Number.NEGATIVE_INFINITY || of.value >= 0)
        : of.comparator === '>'
          ? upTo > of.value
          : over < of.value && of.value <= upTo;
    if (touches) mask |= 1 << i;
  });
  return mask;
}

/** Analytes that answer a test of the same name by a number. */
const NUMERIC = [
  'crp',
  'esr',
  'd-dimer',
  'il-6',
  'procalcitonin',
  'synovial-wbc',
  'synovial-pmn',
  'synovial-crp',
] as const satisfies readonly (AnalyteId & TestId)[];

/** Signal to cut-off over 1 is positive. */
const DEFENSIN_CUT_OFF = 1;
/** `++` and more, by rank in the words of the strip. */
const STRIP_RANK = 3;

function cellsOfSign(id: 'alpha-defensin' | 'leukocyte-esterase', of: Read): number {
  if (id === 'leukocyte-esterase') return of.kind === 'word' && of.rank >= STRIP_RANK ? 2 : 1;
  if (of.kind === 'word') return of.word === 'positive' ? 2 : 1;
  if (of.comparator === '<') return of.value <= DEFENSIN_CUT_OFF ? 1 : 3;
  if (of.comparator === '>') return of.value >= DEFENSIN_CUT_OFF ? 2 : 3;
  return of.value > DEFENSIN_CUT_OFF ? 2 : 1;
}

/** How one test was answered from the laboratory. */
export interface LabAnswer {
  readonly test: TestId;
  readonly mask: number;
  readonly inUse: ResultInUse;
  /** Set where the value compared is the one corrected for blood. */
  readonly corrected: CorrectedCounts | null;
}

export interface LabWindow {
  readonly decisionOn: string;
  readonly notBefore?: string;
}

/** INF-9: the laboratory's answers to the tests, blood-stained counts corrected where all four counts are known. */
export function observeLab(series: LabSeries, window: LabWindow): readonly LabAnswer[] {
  const corrected = correction(series, window);
  const answers: LabAnswer[] = [];
  for (const test of [...NUMERIC, 'alpha-defensin', 'leukocyte-esterase'] as const) {
    const inUse = resultInUse(series.readings.get(test) ?? [], window);
    if (inUse.used.length === 0) continue;
    const raw = (r: LabReading) =>
      test === 'alpha-defensin' || test === 'leukocyte-esterase'
        ? cellsOfSign(test, r.of)
        : r.of.kind === 'number'
          ? cellsOfNumber(test, r.of)
          : everyCell(test);
    const value = test === 'synovial-wbc' ? corrected?.wbc : test === 'synovial-pmn' ? corrected?.pmnPercent : null;
    const replaced = value !== null && value !== undefined;
    const mask = replaced
      ? cellsOfNumber(test, { kind: 'number', value, comparator: null })
      : inUse.used.reduce((m, r) => m | raw(r), 0);
    answers.push({ test, mask, inUse, corrected: replaced ? corrected : null });
  }
  return answers;
}

/** Blood counts further than this from the tap are not used to correct it; common practice, no source. */
export const BLOOD_COUNT_DAYS = 7;

function correction(series: LabSeries, window: LabWindow): CorrectedCounts | null {
  const single = (id: AnalyteId) => {
    const used = resultInUse(series.readings.get(id) ?? [], window).used;
    const only = used.length === 1 ? used[0]! : null;
    return only && only.of.kind === 'number' && only.of.comparator === null
      ? { value: only.of.value, on: only.takenOn }
      : null;
  };
  const fluid = single('synovial-wbc');
  const near = (id: AnalyteId, days: number) => {
    const found = single(id);
    if (!fluid || !found) return undefined;
    const apart =
      found.on === null || fluid.on === null ? (found.on === fluid.on ? 0 : null) : daysBetween(found.on, fluid.on);
    return apart !== null && Math.abs(apart) <= days ? found.value : undefined;
  };
  const [fluidRbc, bloodWbc, bloodRbc] = [
    near('synovial-rbc', 0),
    near('blood-wbc', BLOOD_COUNT_DAYS),
    near('blood-rbc', BLOOD_COUNT_DAYS),
  ];
  if (!fluid || fluidRbc === undefined || bloodWbc === undefined || bloodRbc === undefined) return null;
  const fluidPmnPercent = near('synovial-pmn', 0);
  const bloodNeutrophilPercent = near('blood-neutrophils', BLOOD_COUNT_DAYS);
  const outcome = correctForBlood({
    fluidWbc: fluid.value,
    fluidRbc,
    bloodWbc,
    bloodRbc,
    ...(fluidPmnPercent === undefined ? {} : { fluidPmnPercent }),
    ...(bloodNeutrophilPercent === undefined ? {} : { bloodNeutrophilPercent }),
  });
  return outcome.ok ? outcome.value : null;
}
