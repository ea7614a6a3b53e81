import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { type Column, CSV_TABLES } from './csv-tables.ts';

/** A cell as RFC 4180 wants it. */
const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

function cellText(value: unknown, kind: Column['kind']): string {
  if (value === undefined) return '';
  if (kind === 'yes-no') return value === true ? 'yes' : 'no';
  return Array.isArray(value) ? value.join(' ') : String(value);
}

const at = (catalogue: Catalogue, pointer: string): unknown =>
  pointer
    .split('/')
    .slice(1)
    .reduce<unknown>((found, name) => (found as Record<string, unknown> | undefined)?.[name], catalogue);

/**
 * The tables of a catalogue, file name to text: what `readCatalogueCsv` reads, and a pattern to fill in for a system
 * of one's own. Outlines are left out.
 */
export function writeCatalogueCsv(catalogue: Catalogue): Readonly<Record<string, string>> {
  return Object.fromEntries(
    CSV_TABLES.flatMap(({ file, pointer, columns, single }) => {
      const value = at(catalogue, pointer);
      if (value === undefined) return [];
      const rows = (single ? [value] : value) as readonly Readonly<Record<string, unknown>>[];
      const lines = rows.map((row) => columns.map((c) => quoted(cellText(row[c.field], c.kind))).join(','));
      return [[file, `${[columns.map((c) => c.header).join(','), ...lines].join('\n')}\n`]];
    }),
  );
}
