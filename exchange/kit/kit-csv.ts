import type { KitRoom } from '@gapline/core/kit/kit-answer.ts';
import type { SetList } from '@gapline/core/kit/set-list.ts';

const COLUMNS = [
  'bring',
  'ref',
  'name',
  'owner',
  'trays',
  'cost',
  'currency',
  'lead_working_days',
  'order_by',
  'too_late',
  'adds_percent',
  'fail_percent',
] as const;

/** A cell as RFC 4180 wants it; a text that a spreadsheet would take for a formula is led by an apostrophe. */
function cell(value: string | number): string {
  const text = typeof value === 'string' && /^[=+\-@\t\r]/.test(value) ? `'${value}` : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const percent = (share: number): string => (100 * share).toFixed(2);

/**
 * The kit as a table to order and to pack by: every set of the list, those to bring first, in the order of the list. Lines
 * end with CR LF, the first line is the header (RFC 4180). A day to order by stands for loans with a day of surgery;
 * a chance that is not known is left empty. Same room, same bytes.
 */
export function kitCsv(room: KitRoom, { currency }: Pick<SetList, 'currency'>): string {
  const rows = [...room.sets.filter((s) => s.brought), ...room.sets.filter((s) => !s.brought)].map((s) => [
    s.brought ? 'yes' : 'no',
    s.ref,
    s.name,
    s.owner === 'loan' ? 'loan' : 'own shelf',
    s.trays,
    s.cost,
    currency,
    s.leadDays,
    s.orderBy ?? '',
    s.late ? 'yes' : 'no',
    percent(s.adds),
    s.failShare === null ? '' : percent(s.failShare),
  ]);
  return [COLUMNS, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}
