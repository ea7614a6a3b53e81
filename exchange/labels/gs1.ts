import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import identifiers from './application-identifiers.json' with { type: 'json' };
import type { Label } from './label.ts';
import { daysIn, fullYear, isoDate } from './label-dates.ts';

const GS = '\u001d';
/** Symbology identifiers that announce GS1 data (case counts): GS1-128, DataMatrix, QR, DataBar. */
const SYMBOLOGY = /^\](?:C1|d2|Q3|e0)/;

interface Element {
  readonly code: string;
  readonly value: string;
}

const fail = (code: string, message: string, mend: string) => cannot({ code, message, field: 'label', mend });

/** Check digit of a GS1 key's body: from the right 3, 1, 3 ... ; (10 - sum mod 10) mod 10. GS1 General Specifications. */
export function gs1CheckDigit(body: string): number {
  const sum = [...body].toReversed().reduce((a, d, i) => a + Number(d) * (i % 2 === 0 ? 3 : 1), 0);
  return (10 - (sum % 10)) % 10;
}

/** The identifier that a text begins with; identifiers have two to four digits and none is the start of another. */
function identifierAt(text: string) {
  return identifiers.find((row) => {
    const code = text.slice(0, row.from.length);
    return code.length === row.from.length && code >= row.from && code <= row.to;
  });
}

function checkElement(code: string, value: string): Outcome<Element> {
  const row = identifierAt(code);
  if (!row || row.from.length !== code.length)
    return fail('gs1-unknown', `(${code}) is not a known identifier.`, 'Type the label by hand.');
  if (value.length < row.least || value.length > row.most)
    return fail(
      'gs1-length',
      `(${code}) ${row.title} holds ${value.length} characters; ${row.least} to ${row.most} are allowed.`,
      'Scan again; a separator may be missing.',
    );
  if (row.digits && !/^\d*$/.test(value))
    return fail('gs1-digits', `(${code}) ${row.title} must be digits.`, 'Scan again.');
  if (code === '01' && gs1CheckDigit(value.slice(0, -1)) !== Number(value.slice(-1)))
    return fail(
      'gs1-check-digit',
      `The check digit of the device number ${value} is wrong.`,
      'Scan again; do not use this label.',
    );
  return ok({ code, value });
}

/** Splits a scanned string: fixed elements by length, others up to the separator or the end. */
function splitScan(text: string): Outcome<Element[]> {
  const found: Element[] = [];
  let rest = text;
  while (rest.length > 0) {
    const row = identifierAt(rest);
    if (!row)
      return fail(
        'gs1-unknown',
        `The label is not understood from "${rest.slice(0, 12)}" on.`,
        'Scan again, or type it by hand.',
      );
    const code = rest.slice(0, row.from.length);
    const after = rest.slice(code.length);
    const end = row.fixed ? row.most : (after + GS).indexOf(GS);
    const element = checkElement(code, after.slice(0, end));
    if (!element.ok) return element;
    found.push(element.value);
    rest = after.slice(end);
    // One separator is tolerated after any element (General Specifications 7.8.6.3).
    if (rest.startsWith(GS)) rest = rest.slice(1);
  }
  return ok(found);
}

/** Splits the bracketed print form, `(01)...(10)...`. */
function splitPrinted(text: string): Outcome<Element[]> {
  const found: Element[] = [];
  const pieces = [...text.matchAll(/\((\d{2,4})\)([^(]*)/g)];
  if (pieces.map((p) => p[0]).join('') !== text)
    return fail(
      'gs1-brackets',
      'The brackets of the label do not match.',
      'Give each identifier in brackets, e.g. (01)...(10)...',
    );
  for (const [, code = '', value = ''] of pieces) {
    const element = checkElement(code, value);
    if (!element.ok) return element;
    found.push(element.value);
  }
  return ok(found);
}

function gs1Date(value: string, readIn: number): string | null {
  const year = fullYear(Number(value.slice(0, 2)), readIn);
  const month = Number(value.slice(2, 4));
  const day = Number(value.slice(4, 6));
  // Day 00 means the last day of the month; no longer allowed on new healthcare labels, still met on old ones.
  return isoDate(year, month, day === 0 && month >= 1 && month <= 12 ? daysIn(year, month) : day);
}

/**
 * Reads a GS1 label, scanned (`]d2...` or raw with separators) or printed with brackets. Verifies the check digit of the
 * device number, lengths and dates. Case is kept: lower case is a different lot.
 * @param readIn year of reading, for two-digit years.
 * Refuses unknown identifiers and anything that does not split cleanly: a missing separator cannot be repaired.
 * Source: GS1 General Specifications; table from the GS1 Barcode Syntax Dictionary.
 */
export function readGs1(text: string, readIn: number): Outcome<Label> {
  const unnamed = text.replace(SYMBOLOGY, '');
  const bare = unnamed.startsWith(GS) ? unnamed.slice(1) : unnamed;
  if (bare === '') return fail('label-empty', 'There is no label to read.', 'Scan or paste the label.');
  const split = bare.startsWith('(') ? splitPrinted(bare) : splitScan(bare);
  if (!split.ok) return split;
  const value = (code: string) => split.value.find((e) => e.code === code)?.value;
  const repeated = split.value.find((e, i) =>
    split.value.some((o, j) => j < i && o.code === e.code && o.value !== e.value),
  );
  if (repeated)
    return fail('gs1-repeated', `(${repeated.code}) stands twice with two values.`, 'Scan one label at a time.');
  const dates = { expires: value('17'), made: value('11') };
  const read: { expires?: string; made?: string } = {};
  for (const key of ['expires', 'made'] as const) {
    const raw = dates[key];
    if (raw === undefined) continue;
    const iso = gs1Date(raw, readIn);
    if (iso === null) return fail('gs1-date', `The date ${raw} does not exist.`, 'Scan again; do not use this label.');
    read[key] = iso;
  }
  const device = value('01');
  const lot = value('10');
  const serial = value('21');
  const count = value('30');
  return ok({
    carrier: 'gs1',
    ...(device === undefined ? {} : { device }),
    ...(lot === undefined ? {} : { lot }),
    ...(serial === undefined ? {} : { serial }),
    ...read,
    ...(count === undefined ? {} : { quantity: Number(count) }),
    others: split.value.filter((e) => !['01', '10', '11', '17', '21', '30'].includes(e.code)),
    warnings: [
      ...(device === undefined ? ['The label holds no device number.'] : []),
      ...(serial !== undefined || lot !== undefined ? [] : ['The label holds neither lot nor serial number.']),
      ...(!bare.startsWith('(') && !bare.includes(GS) && lot !== undefined && lot.length > 14
        ? ['The lot may have swallowed what follows it: no separator was read.']
        : []),
    ],
  });
}
