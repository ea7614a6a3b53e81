import type { StockItem } from '@gapline/core/kit/set-list.ts';
import { dayNumber } from '@gapline/core/laboratory/day.ts';
import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';
import { CsvError, parse } from 'csv-parse/sync';

export const STOCK_COLUMNS = ['ref', 'lot', 'expires', 'count', 'set'] as const;
type StockColumn = (typeof STOCK_COLUMNS)[number];

interface Line {
  /** As an editor counts: the header is line 1. */
  readonly number: number;
  readonly cells: Readonly<Record<StockColumn, string>>;
}

const HEADER = STOCK_COLUMNS.join(',');
const WHOLE = /^\d{1,6}$/;

const fault = (file: string, field: string, [code, what, mend]: readonly [string, string, string]): Reason => ({
  code,
  message: `${file}${field ? `, ${field}:` : ''} ${what}.`,
  file,
  ...(field ? { field } : {}),
  mend,
});

/**
 * Reads a stock list in CSV (KIT-13): one lot a line, columns `ref,lot,expires,count,set` in any order, commas or
 * semicolons, `set` empty for what lies loose on the shelf. Days are YYYY-MM-DD; a lot may be used on its last day.
 *
 * @returns the lots in the order of the file; `cannot` names file, line, column and mend of the first fault and the number of
 * the others: a stock list is taken whole or not at all.
 */
export function readStockCsv(text: string, name: string): Outcome<readonly StockItem[]> {
  const lines = linesOf(text, name);
  if ('code' in lines) return cannot(lines);
  const items: StockItem[] = [];
  const faults: Reason[] = [];
  for (const line of lines) {
    const [first] = faultsOf(line, name);
    if (first) faults.push(first);
    else items.push(itemOf(line));
  }
  const [first, ...others] = faults;
  if (!first) return ok(items);
  const more = others.length > 0 ? ` (and ${others.length} more lines)` : '';
  return cannot({ ...first, message: `${first.message}${more}` });
}

function linesOf(text: string, name: string): readonly Line[] | Reason {
  let records: string[][];
  const numbers: number[] = [];
  try {
    records = parse(text, {
      bom: true,
      trim: true,
      skip_empty_lines: true,
      delimiter: [',', ';'],
      on_record: (record: string[], { lines }) => {
        numbers.push(lines);
        return record;
      },
    });
  } catch (error) {
    const line = error instanceof CsvError && typeof error.lines === 'number' ? `line ${error.lines}` : '';
    const why = (error as Error).message.replace(/\s+/g, ' ');
    return fault(name, line, [
      'not-a-table',
      `cannot be read: ${why}`,
      'Give every line as many cells as the header, and close every quotation mark.',
    ]);
  }
  const [head, ...rows] = records;
  const header = (head ?? []).map((h) => h.toLowerCase());
  const missing = STOCK_COLUMNS.find((column) => column !== 'set' && !header.includes(column));
  if (missing)
    return fault(name, `line 1, column ${missing}`, ['column-missing', 'is missing', `The header is: ${HEADER}`]);
  const unknown = header.find((h, i) => !STOCK_COLUMNS.some((c) => c === h) || header.indexOf(h) !== i);
  if (unknown !== undefined)
    return fault(name, `line 1, column ${unknown || '(no name)'}`, [
      'column-unknown',
      'is not a column of a stock list, or stands twice',
      `The header is: ${HEADER}`,
    ]);
  const cell = (record: readonly string[], column: StockColumn) => record[header.indexOf(column)] ?? '';
  return rows.map((record, i) => ({
    number: numbers[i + 1] ?? 0,
    cells: {
      ref: cell(record, 'ref'),
      lot: cell(record, 'lot'),
      expires: cell(record, 'expires'),
      count: cell(record, 'count'),
      set: cell(record, 'set'),
    },
  }));
}

function faultsOf({ number, cells }: Line, name: string): readonly Reason[] {
  const at = (column: StockColumn, what: readonly [string, string, string]): Reason =>
    fault(name, `line ${number}, column ${column}`, what);
  const empty = (column: StockColumn, mend: string): Reason[] =>
    cells[column] === '' ? [at(column, ['cell-empty', 'is empty', mend])] : [];
  return [
    ...empty('ref', 'Give the reference of the part, as on its label.'),
    ...empty('lot', 'Give the lot, as on its label.'),
    ...(dayNumber(cells.expires) === null
      ? [
          at('expires', [
            'not-a-day',
            cells.expires === '' ? 'is empty' : `is "${cells.expires}", which is not a day written YYYY-MM-DD`,
            'Give the last day of use, such as 2028-06-30.',
          ]),
        ]
      : []),
    ...(WHOLE.test(cells.count)
      ? []
      : [
          at('count', [
            'not-a-count',
            cells.count === '' ? 'is empty' : `is "${cells.count}", which is not a whole number of pieces`,
            'Give the number of pieces, 0 or more.',
          ]),
        ]),
  ];
}

const itemOf = ({ cells }: Line): StockItem => ({
  ref: cells.ref,
  lot: cells.lot,
  expires: cells.expires,
  count: Number(cells.count),
  ...(cells.set === '' ? {} : { set: cells.set }),
});
