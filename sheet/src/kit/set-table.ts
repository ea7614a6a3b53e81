import { type Box, type Page, rule, write } from '../page.ts';
import type { KitListRow } from './kit-list-content.ts';

interface Column {
  readonly head: string;
  readonly at: number;
  readonly width: number;
  readonly of: (row: KitListRow) => string;
  readonly bold?: boolean;
}

/** Offsets and widths within 539 points. */
const COLUMNS: readonly Column[] = [
  { head: 'Set', at: 18, width: 190, of: (r) => r.name, bold: true },
  { head: 'Number', at: 212, width: 62, of: (r) => r.ref },
  { head: 'From', at: 278, width: 48, of: (r) => r.owner },
  { head: 'Trays', at: 328, width: 28, of: (r) => String(r.trays) },
  { head: 'Cost', at: 360, width: 46, of: (r) => r.cost },
  { head: 'Order by', at: 410, width: 58, of: (r) => (r.late ? `${r.orderBy} LATE` : r.orderBy) },
  { head: 'Adds', at: 472, width: 67, of: (r) => r.adds },
];

const ROW = 13.5;
const LEAST_ROW = 10.5;
/** Height that the table may take before its rows shrink. */
const ROOM = 330;

/** The sets, one line each, with a box to tick when it stands in the room. Result: y below the table. */
export function setTable(page: Page, rows: readonly KitListRow[], at: Omit<Box, 'height'>): number {
  const height = Math.max(LEAST_ROW, Math.min(ROW, ROOM / Math.max(1, rows.length)));
  rule(page, at, 1.2);
  for (const { head, at: offset, width } of COLUMNS)
    write(page, head, { box: { x: at.x + offset, y: at.y + 3, width, height: 10 }, style: { size: 7.5 } });
  let y = at.y + 14;
  for (const row of rows) {
    page
      .lineWidth(0.8)
      .strokeColor('black')
      .undash()
      .rect(at.x + 2, y + 1.5, 8.5, 8.5)
      .stroke();
    for (const { at: offset, width, of, bold } of COLUMNS)
      write(page, of(row), {
        box: { x: at.x + offset, y: y + 1, width, height: height - 1 },
        style: { size: 8.5, least: 6, weight: bold || (row.late && of(row).endsWith('LATE')) ? 'bold' : 'plain' },
      });
    y += height;
    rule(page, { x: at.x, y: y - 0.5, width: at.width }, 0.25);
  }
  return y;
}
