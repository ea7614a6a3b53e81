import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { Label } from './label.ts';
import { dayOfYear, daysIn, fullYear, isoDate } from './label-dates.ts';

const ALPHABET = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%';

const fail = (code: string, message: string, mend: string) => cannot({ code, message, field: 'label', mend });

/** Modulo-43 check character over all characters, the leading + and separators included. ANSI/HIBC 2.6. Null for a character outside its alphabet. */
export function hibcCheckCharacter(text: string): string | null {
  const values = [...text].map((c) => ALPHABET.indexOf(c));
  if (values.includes(-1)) return null;
  return ALPHABET[values.reduce((a, v) => a + v, 0) % 43] ?? null;
}

interface Secondary {
  lot?: string;
  serial?: string;
  expires?: string;
  made?: string;
  quantity?: number;
}

type DateRead = { readonly date: string | null | undefined; readonly rest: string };

const num = (s: string, from: number, to: number) => Number(s.slice(from, to));

/** Reads the date that a flag announces and gives what follows it; `date: null` is a date that does not exist. */
function flaggedDate(text: string, readIn: number): DateRead {
  const year = (two: number) => fullYear(two, readIn);
  const cut = (n: number, date: string | null): DateRead => ({ date, rest: text.slice(n) });
  switch (text[0]) {
    case '0':
    case '1': {
      const y = year(num(text, 2, 4));
      const m = num(text, 0, 2);
      // Only month and year are given: the last day of the month is meant.
      return cut(4, m >= 1 && m <= 12 ? isoDate(y, m, daysIn(y, m)) : null);
    }
    case '2':
      return cut(7, isoDate(year(num(text, 5, 7)), num(text, 1, 3), num(text, 3, 5)));
    case '3':
      return cut(7, isoDate(year(num(text, 1, 3)), num(text, 3, 5), num(text, 5, 7)));
    case '4':
      return cut(9, isoDate(year(num(text, 1, 3)), num(text, 3, 5), num(text, 5, 7)));
    case '5':
      return cut(6, dayOfYear(year(num(text, 1, 3)), num(text, 3, 6)));
    case '6':
      return cut(8, dayOfYear(year(num(text, 1, 3)), num(text, 3, 6)));
    case '7':
      return { date: undefined, rest: text.slice(1) };
    default:
      return { date: undefined, rest: text };
  }
}

/** Secondary data: `$lot`, `$+serial`, `$$[8qq|9qqqqq][date]lot`, `$$+...serial`, or a five-digit day and lot. */
function readSecondary(segment: string, readIn: number): Secondary | null {
  if (/^\d{5}/.test(segment)) {
    const date = dayOfYear(fullYear(num(segment, 0, 2), readIn), num(segment, 2, 5));
    return date === null ? null : { expires: date, lot: segment.slice(5) };
  }
  const twice = segment.startsWith('$$');
  let rest = segment.slice(twice ? 2 : 1);
  const serial = rest.startsWith('+');
  if (serial) rest = rest.slice(1);
  const out: Secondary = {};
  if (twice) {
    const digits = rest[0] === '8' ? 2 : rest[0] === '9' ? 5 : 0;
    if (digits > 0) {
      out.quantity = num(rest, 1, 1 + digits);
      rest = rest.slice(1 + digits);
    }
    const dated = flaggedDate(rest, readIn);
    if (dated.date === null) return null;
    if (dated.date !== undefined) out.expires = dated.date;
    rest = dated.rest;
  }
  if (rest !== '') out[serial ? 'serial' : 'lot'] = rest;
  return out;
}

/** Supplementary segment: S serial, 14D expiry, 16D made (YYYYMMDD), Q quantity. Null where it is not one. */
function readSupplement(segment: string): Secondary | null {
  const date = segment.match(/^(14|16)D(\d{4})(\d{2})(\d{2})$/);
  if (date) {
    const iso = isoDate(Number(date[2]), Number(date[3]), Number(date[4]));
    return iso === null ? null : date[1] === '14' ? { expires: iso } : { made: iso };
  }
  if (/^Q\d+$/.test(segment)) return { quantity: Number(segment.slice(1)) };
  return segment.startsWith('S') ? { serial: segment.slice(1) } : null;
}

/**
 * Reads an HIBC label: primary alone, secondary alone, or both joined by `/` with supplements. Verifies the modulo-43
 * check character. Device = labeller, product and unit, without + and check.
 * @param readIn year of reading, for two-digit years.
 * Refuses lower case, a wrong check character, dates that do not exist. A secondary alone ends in a link character,
 * which is not verified here because it belongs to a primary on another label: a warning says so.
 * Source: ANSI/HIBC 2.6.
 */
export function readHibc(text: string, readIn: number): Outcome<Label> {
  const bare = text.replace(/^\][A-Za-z]\d/, '').replace(/^\*|\*$/g, '');
  if (!bare.startsWith('+') || bare.length < 4)
    return fail('hibc-start', 'An HIBC label begins with +.', 'Scan again.');
  const body = bare.slice(0, -1);
  const check = hibcCheckCharacter(body);
  if (check === null)
    return fail(
      'hibc-characters',
      'The label holds a character that HIBC does not have.',
      'Scan again; HIBC is upper case only.',
    );
  if (check !== bare.slice(-1))
    return fail(
      'hibc-check',
      `The check character is ${bare.slice(-1)}, it should be ${check}.`,
      'Scan again; do not use this label.',
    );
  const data = body.slice(1);
  const primary = /^[A-Z]/.test(data);
  const [first = '', ...more] = data.split('/');
  const device = first.match(/^([A-Z][A-Z0-9]{3}[A-Z0-9]{1,18}\d)$/)?.[1];
  if (primary && device === undefined)
    return fail(
      'hibc-primary',
      'Labeller, product and unit cannot be told apart.',
      'Scan again, or type the label by hand.',
    );
  const segments = primary ? more : [first.slice(0, -1), ...more];
  const read: Secondary = {};
  const others: { code: string; value: string }[] = [];
  for (const [i, segment] of segments.entries()) {
    const secondary = i === 0 && /^(\$|\d{5})/.test(segment);
    const part = secondary ? readSecondary(segment, readIn) : readSupplement(segment);
    if (part) Object.assign(read, part);
    else if (secondary || /^1[46]D/.test(segment))
      return fail('hibc-date', `The date in "${segment}" does not exist.`, 'Scan again; do not use this label.');
    else others.push({ code: segment.slice(0, 1), value: segment.slice(1) });
  }
  return ok({
    carrier: 'hibc',
    ...(device === undefined ? {} : { device }),
    ...read,
    others,
    warnings:
      device === undefined ? ['This is the second label of a pair: scan the one with the device number too.'] : [],
  });
}
