import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';
import { type AnalyteId, analyte, ORDINALS } from './analyte.ts';
import { dayNumber, daysBetween } from './day.ts';
import { toStandardUnit } from './unit.ts';

/** One result as entered: kept for ever as it was typed, whatever is made of it. */
export interface LabResult {
  readonly id: string;
  readonly analyte: AnalyteId;
  /** A number, or one of the words of a strip or a qualitative test. */
  readonly value: number | string;
  readonly unit?: string;
  /** `<` = below the limit of the assay, `>` = above it. */
  readonly comparator?: '<' | '>';
  /** `YYYY-MM-DD`; absent = not known. */
  readonly takenOn?: string;
  /** Name of the sample where several were taken on one day. */
  readonly sample?: string;
  /** `laboratory` or `lateral-flow`, for alpha-defensin. */
  readonly method?: 'laboratory' | 'lateral-flow';
  /** For a strip on a blood-stained aspirate. */
  readonly centrifuged?: boolean;
}

/** A result that can be compared. */
export interface LabReading {
  readonly id: string;
  readonly analyte: AnalyteId;
  readonly of:
    | { readonly kind: 'number'; readonly value: number; readonly comparator: '<' | '>' | null }
    | { readonly kind: 'word'; readonly word: string; readonly rank: number };
  readonly unit: string | null;
  readonly conversion: string | null;
  readonly takenOn: string | null;
  readonly entered: LabResult;
}

/**
 * LAB-4: reads one result into its standard unit. `today` is the day of reading. Refuses, naming the field: a value
 * that is no number or no word of the test, a missing unit or one of another analyte, a negative value, a share over
 * 100 %, a day not in the calendar, a day after `today`. Warns of a value rarely seen and of a missing day.
 */
export function readLabResult(result: LabResult, today: string): Outcome<LabReading> {
  const warnings: Warning[] = [];
  const day = readDay(result, today);
  if (!day.ok) return day;
  warnings.push(...day.warnings);
  const of = typeof result.value === 'number' ? readNumber(result, result.value) : readWord(result, result.value);
  if (!of.ok) return of;
  warnings.push(...of.warnings);
  return ok(
    {
      id: result.id,
      analyte: result.analyte,
      of: of.value.of,
      unit: of.value.unit,
      conversion: of.value.conversion,
      takenOn: day.value,
      entered: result,
    },
    warnings,
  );
}

const fault = (result: LabResult, part: string, words: { code: string; message: string; mend: string }) =>
  cannot({ ...words, field: `labResults[${result.id}].${part}` });

function readDay(result: LabResult, today: string): Outcome<string | null> {
  if (result.takenOn === undefined)
    return ok(null, [
      {
        code: 'no-date',
        message: `${analyte(result.analyte).label} has no date; it is used only where no dated result exists.`,
        field: `labResults[${result.id}].takenOn`,
        mend: 'Give the day of sampling.',
      },
    ]);
  if (dayNumber(result.takenOn) === null)
    return fault(result, 'takenOn', {
      code: 'impossible-date',
      message: `${result.takenOn} is no day of the calendar.`,
      mend: 'Give the day as YYYY-MM-DD.',
    });
  if ((daysBetween(result.takenOn, today) ?? 0) < 0)
    return fault(result, 'takenOn', {
      code: 'future-result',
      message: `${result.takenOn} lies after today, ${today}.`,
      mend: 'Correct the day of sampling.',
    });
  return ok(result.takenOn);
}

interface Read {
  readonly of: LabReading['of'];
  readonly unit: string | null;
  readonly conversion: string | null;
}

function readNumber(result: LabResult, value: number): Outcome<Read> {
  const known = analyte(result.analyte);
  if (!Number.isFinite(value))
    return fault(result, 'value', {
      code: 'not-a-finite-number',
      message: `${known.label} is not a number.`,
      mend: 'Give a plain decimal number.',
    });
  if (value < 0)
    return fault(result, 'value', {
      code: 'negative-value',
      message: `${known.label} ${value} is negative.`,
      mend: 'A quantity is zero or more; correct the value.',
    });
  const standard = toStandardUnit(result.analyte, value, result.unit);
  if (!standard.ok) return cannot({ ...standard.reason, field: `labResults[${result.id}].unit` });
  if (known.unit === '%' && standard.value.value > 100)
    return fault(result, 'value', {
      code: 'percent-over-100',
      message: `${known.label} ${standard.value.value} % is more than the whole.`,
      mend: 'Correct the value; a fraction of 1 has the unit 1.',
    });
  const warnings = [...standard.warnings];
  if (known.rareAbove !== undefined && standard.value.value > known.rareAbove)
    warnings.push({
      code: 'rarely-seen',
      message: `${known.label} ${standard.value.value} ${known.unit} is rarely seen; check value and unit.`,
      field: `labResults[${result.id}].value`,
    });
  return ok(
    {
      of: { kind: 'number', value: standard.value.value, comparator: result.comparator ?? null },
      unit: standard.value.unit,
      conversion: standard.value.conversion,
    },
    warnings,
  );
}

function readWord(result: LabResult, word: string): Outcome<Read> {
  const known = analyte(result.analyte);
  const words: readonly string[] = known.words ? ORDINALS[known.words] : [];
  const plain = plainWord(word);
  const rank = words.indexOf(plain);
  if (rank < 0)
    return fault(result, 'value', {
      code: 'not-a-word-of-the-test',
      message: `"${word}" is no result of ${known.label}.`,
      mend: words.length > 0 ? `Use one of: ${words.join(', ')}.` : `Give a number in ${known.unit}.`,
    });
  return ok({ of: { kind: 'word', word: plain, rank }, unit: null, conversion: null });
}

/** `++` and `2+` are one word; so are `neg` and `negative`. */
function plainWord(word: string): string {
  const w = word.trim().toLowerCase();
  if (/^\++$/.test(w)) return `${w.length}+`;
  if (w === 'neg' || w === '-') return 'negative';
  return w === 'pos' ? 'positive' : w;
}
