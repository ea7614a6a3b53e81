import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';
import { CsvError, parse } from 'csv-parse/sync';
import { type Column, CSV_TABLES, type CsvTable } from './csv-tables.ts';
import type { Fault } from './fault.ts';
import { catalogueFaults, firstOf } from './read-catalogue.ts';

type Row = Readonly<Record<string, string>>;
type Cell = string | number | boolean | readonly (string | number)[];

/** Where a fault stands: table, row as an editor counts it (the header is row 1), column. */
function inTable(
  file: string,
  at: { readonly row?: number; readonly column?: string },
  fault: Omit<Fault, 'pointer'>,
): Reason {
  const place = [
    at.row === undefined ? '' : `row ${at.row}`,
    at.column === undefined ? '' : `column ${at.column}`,
  ].filter(Boolean);
  const field = place.join(', ');
  const { code, what, mend } = fault;
  return { code, message: `${file}${field ? `, ${field}:` : ''} ${what}.`, file, ...(field ? { field } : {}), mend };
}

/** A cell as its column wants it; text that is no number is kept, so that the fault can show it. */
function cellOf(text: string, kind: Column['kind']): Cell {
  const number = (t: string): number | string => (t.trim() !== '' && Number.isFinite(Number(t)) ? Number(t) : t);
  const words = text.trim().split(/\s+/).filter(Boolean);
  if (kind === 'number') return number(text.trim());
  if (kind === 'numbers') return words.map(number);
  if (kind === 'texts') return words;
  if (kind === 'yes-no') return text === 'yes' ? true : text === 'no' ? false : text;
  return text;
}

/** Reads one table, its header checked; faults name the column, or the row that csv-parse stumbled at. */
function rowsOf(table: CsvTable, text: string): readonly Row[] | Reason {
  const wanted = table.columns.map((c) => c.header);
  const needed = table.columns.filter((c) => !c.optional).map((c) => c.header);
  let records: string[][];
  try {
    records = parse(text, { bom: true, trim: true, skip_empty_lines: true, relax_column_count: false });
  } catch (error) {
    const row = error instanceof CsvError && typeof error.lines === 'number' ? error.lines : undefined;
    const why = (error as Error).message.replace(/\s+/g, ' ');
    const mend = 'Give every row as many cells as the header, and close every quotation mark.';
    return inTable(table.file, row === undefined ? {} : { row }, {
      code: 'not-a-table',
      what: `cannot be read: ${why}`,
      mend,
    });
  }
  const [header = [], ...rows] = records;
  const missing = needed.find((name) => !header.includes(name));
  if (missing)
    return inTable(
      table.file,
      { row: 1, column: missing },
      { code: 'column-missing', what: 'is missing', mend: `The header is: ${wanted.join(',')}` },
    );
  const unknown = header.find((name, i) => !wanted.includes(name) || header.indexOf(name) !== i);
  if (unknown !== undefined)
    return inTable(
      table.file,
      { row: 1, column: unknown || '(no name)' },
      {
        code: 'column-unknown',
        what: 'is not a column of this table, or stands twice',
        mend: `The header is: ${wanted.join(',')}`,
      },
    );
  if (table.single && rows.length !== 1)
    return inTable(
      table.file,
      {},
      { code: 'rows', what: `holds ${rows.length} rows, and should hold one`, mend: 'Give one row below the header.' },
    );
  return rows.map((cells) => Object.fromEntries(header.map((name, i) => [name, cells[i] ?? ''])));
}

const objectOf = (table: CsvTable, row: Row): Record<string, Cell> =>
  Object.fromEntries(
    table.columns
      .filter(({ header, optional }) => !optional || (row[header] ?? '') !== '')
      .map(({ header, field, kind }) => [field, cellOf(row[header] ?? '', kind)]),
  );

/** Puts the rows where the catalogue wants them. Outlines do not travel in tables: such parts are drawn as plain boxes. */
function put(catalogue: Record<string, unknown>, table: CsvTable, rows: readonly Row[]): void {
  const objects = rows.map((row) => objectOf(table, row));
  const withOutlines =
    table.file === 'femurs.csv' || table.file === 'trays.csv'
      ? objects.map((o) => ({ ...o, outlines: { coronal: [], sagittal: [] } }))
      : objects;
  const value: unknown = table.single ? withOutlines[0] : withOutlines;
  const [, first, second] = table.pointer.split('/');
  if (first === undefined) Object.assign(catalogue, value);
  else if (second === undefined) catalogue[first] = value;
  else catalogue[first] = { ...(catalogue[first] as object | undefined), [second]: value };
}

/** A fault of the catalogue as table, row and column. */
function backToTable(fault: Fault): Reason {
  const table = [...CSV_TABLES]
    .sort((a, b) => b.pointer.length - a.pointer.length)
    .find((t) => fault.pointer === t.pointer || fault.pointer.startsWith(`${t.pointer}/`));
  if (!table) throw new Error(`No table holds ${fault.pointer}.`);
  const rest = fault.pointer.slice(table.pointer.length).split('/').slice(1);
  const [index, name] = table.single ? ['0', rest[0]] : rest;
  const column = table.columns.find((c) => c.field === name)?.header;
  const at = { ...(index === undefined ? {} : { row: Number(index) + 2 }), ...(column ? { column } : {}) };
  return inTable(table.file, at, fault);
}

/**
 * Reads a catalogue from tables in CSV, one a kind of part (CAT-4): file name to text. The same checks as for JSON,
 * told by table, row and column. Rows are counted as in an editor: the header is row 1, empty lines not counted.
 */
export function readCatalogueCsv(files: Readonly<Record<string, string>>): Outcome<Catalogue> {
  const catalogue: Record<string, unknown> = {
    format: 'gapline-catalogue',
    version: '1.0',
    femoralAugments: [],
    tibialAugments: [],
    stems: [],
    offsetCouplers: [],
  };
  for (const table of CSV_TABLES) {
    const text = files[table.file];
    if (text === undefined) {
      if (table.optional) continue;
      return cannot(
        inTable(
          table.file,
          {},
          {
            code: 'table-missing',
            what: 'is missing',
            mend: `Add ${table.file} with the header: ${table.columns.map((c) => c.header).join(',')}`,
          },
        ),
      );
    }
    const rows = rowsOf(table, text);
    if ('code' in rows) return cannot(rows);
    put(catalogue, table, rows);
  }
  const faults = catalogueFaults(catalogue);
  return faults.length > 0 ? firstOf(faults.map(backToTable)) : ok(catalogue as unknown as Catalogue);
}
