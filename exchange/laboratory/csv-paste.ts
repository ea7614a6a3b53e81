import { ANALYTE_IDS, type AnalyteId, analyte, analyteOfLoinc } from '@gapline/core/laboratory/analyte.ts';
import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { parse } from 'csv-parse/sync';
import type { NotTaken, ReadLaboratory } from './read-laboratory.ts';

const COLUMNS = ['date', 'test', 'value', 'unit'] as const;

/** Tests by id, code, or label, capitals aside. */
function analyteNamed(name: string): AnalyteId | null {
  const plain = name.trim().toLowerCase();
  return (
    ANALYTE_IDS.find((id) => id === plain || analyte(id).label.toLowerCase() === plain) ?? analyteOfLoinc(name.trim())
  );
}

/** Separator by the header line; a paste from a spreadsheet comes with tabs. */
function separatorOf(header: string): string {
  const candidates = ['\t', ';', ','];
  return candidates.reduce((best, c) => (header.split(c).length > header.split(best).length ? c : best), ',');
}

/**
 * A number as typed. A decimal comma is read only where the columns are not separated by commas and no point stands
 * in the value; anything else that is not a plain number stays a word and is judged by core.
 */
function numberOrWord(raw: string, separator: string): number | string {
  const plain = separator !== ',' && /^\d+,\d+$/.test(raw) ? raw.replace(',', '.') : raw;
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : raw;
}

/**
 * Reads pasted rows with the columns date, test, value, unit (RFC 4180; comma, semicolon or tab). The test is an id, a
 * LOINC code or the full label; the value may begin with < or >. Rows that name no known test are returned in
 * `notTaken` with their line. Refuses text without those columns.
 */
export function readCsvPaste(source: string): Outcome<ReadLaboratory> {
  const text = source.replace(/^\uFEFF/, '');
  const header = text.split(/\r?\n/, 1)[0] ?? '';
  const separator = separatorOf(header);
  let rows: Record<string, string>[];
  try {
    rows = parse(text, {
      columns: (names: string[]) => names.map((n) => n.trim().toLowerCase()),
      delimiter: separator,
      skip_empty_lines: true,
      trim: true,
    });
  } catch (error) {
    return cannot({
      code: 'csv-not-read',
      message: `The rows cannot be read: ${error instanceof Error ? error.message : 'unknown fault'}.`,
      field: 'csv',
      mend: 'Give each row the same number of columns.',
    });
  }
  const missing = COLUMNS.filter(
    (c) =>
      !header
        .toLowerCase()
        .split(separator)
        .map((h) => h.trim().replaceAll('"', ''))
        .includes(c),
  );
  if (missing.length > 0)
    return cannot({
      code: 'csv-columns',
      message: `Missing columns: ${missing.join(', ')}.`,
      field: 'csv header',
      mend: `The first line must name: ${COLUMNS.join(', ')}.`,
    });
  const results: LabResult[] = [];
  const notTaken: NotTaken[] = [];
  rows.forEach((row, n) => {
    const id = analyteNamed(row.test ?? '');
    if (!id) {
      notTaken.push({
        entry: `line ${n + 2}: ${COLUMNS.map((c) => row[c] ?? '').join(' ')}`,
        reason: {
          code: 'test-not-known',
          message: `"${row.test ?? ''}" is no test of the work-up.`,
          field: `line ${n + 2}, test`,
          mend: `Use one of: ${ANALYTE_IDS.join(', ')}.`,
        },
      });
      return;
    }
    const raw = row.value ?? '';
    const comparator = raw.startsWith('<') ? '<' : raw.startsWith('>') ? '>' : undefined;
    results.push({
      id: `csv-${n + 2}`,
      analyte: id,
      value: numberOrWord(comparator ? raw.slice(1).trim() : raw, separator),
      ...(row.unit ? { unit: row.unit } : {}),
      ...(comparator ? { comparator } : {}),
      ...(row.date ? { takenOn: row.date } : {}),
    });
  });
  return ok({ results, notTaken });
}
