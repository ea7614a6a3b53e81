import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { ErrorObject } from 'ajv/dist/2020.js';

/**
 * One fault that the schema found, in words: the file, the field as one would type it, and the mend.
 *
 * @param kind what the file is to be.
 */
export function faultInWords(error: ErrorObject, file: string, kind = 'a case file'): Reason {
  const at = fieldOf(error.instancePath);
  const said = describe(error, kind);
  const field = said.child ? (at ? `${at}.${said.child}` : said.child) : at;
  return { code: said.code, message: `${file}: ${field || 'the file'} ${said.what}.`, file, field, mend: said.mend };
}

/** `/films/2/view` as `films[2].view`. */
export const fieldOf = (pointer: string): string =>
  pointer
    .split('/')
    .slice(1)
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'))
    .reduce((path, part) => (/^\d+$/.test(part) ? `${path}[${part}]` : path ? `${path}.${part}` : part), '');

interface Said {
  readonly code: string;
  readonly what: string;
  readonly mend: string;
  /** Name of the child at fault, where the fault is reported on its parent. */
  readonly child?: string;
}

const WORD_FOR: Readonly<Record<string, string>> = {
  number: 'a plain decimal number',
  integer: 'a whole number',
  string: 'text in quotes',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'an object in { }',
};

function describe(error: ErrorObject, kind: string): Said {
  const p = error.params as Record<string, unknown>;
  switch (error.keyword) {
    case 'required': {
      const child = String(p.missingProperty);
      return { code: 'field-missing', what: 'is missing', mend: `Add "${child}".`, child };
    }
    case 'additionalProperties': {
      const child = String(p.additionalProperty);
      const known = Object.keys((error.parentSchema as { properties?: object } | undefined)?.properties ?? {});
      const near = nearest(child, known);
      const mend = near
        ? `Did you mean "${near}"? Otherwise remove it.`
        : `Remove it, or use one of: ${known.join(', ')}.`;
      return { code: 'field-unknown', what: `is not a field of ${kind}`, mend, child };
    }
    case 'type': {
      const word = WORD_FOR[String(p.type)] ?? String(p.type);
      return { code: 'wrong-type', what: `is ${shown(error.data)}, but should be ${word}`, mend: `Give ${word}.` };
    }
    case 'enum':
      return oneOf(error.data, p.allowedValues as readonly unknown[]);
    case 'const':
      return oneOf(error.data, [p.allowedValue]);
    case 'anyOf': {
      const kinds = ((error.schema as readonly { properties?: { kind?: { const?: unknown } } }[]) ?? [])
        .map((branch) => branch.properties?.kind?.const)
        .filter((kind) => kind !== undefined);
      return { ...oneOf((error.data as { kind?: unknown } | null)?.kind, kinds), child: 'kind' };
    }
    case 'pattern':
      return {
        code: 'wrong-form',
        what: `is ${shown(error.data)}, which has not the form asked for`,
        mend: `Write it as ${inWords(String(p.pattern))}.`,
      };
    case 'minItems':
      return { code: 'too-few', what: `holds fewer than ${p.limit} entries`, mend: `Give at least ${p.limit}.` };
    case 'minLength':
      return { code: 'empty', what: 'is empty', mend: 'Fill it in, or leave the field out if it is not known.' };
    case 'minimum':
    case 'exclusiveMinimum':
    case 'maximum':
    case 'exclusiveMaximum':
      return {
        code: 'out-of-range',
        what: `is ${shown(error.data)}, but must be ${p.comparison} ${p.limit}`,
        mend: 'Correct the number, or leave the field out if it is not known.',
      };
    default:
      return { code: 'not-allowed', what: error.message ?? 'is not allowed', mend: 'See docs/case-file.md.' };
  }
}

function oneOf(data: unknown, allowed: readonly unknown[]): Said {
  const list = allowed.length <= 12 ? allowed.join(', ') : '';
  const near = typeof data === 'string' ? nearest(data, allowed.map(String)) : null;
  const mend = list ? `Use one of: ${list}.` : near ? `Did you mean "${near}"?` : 'See docs/case-file.md for the list.';
  return { code: 'not-in-list', what: `is ${shown(data)}, which is not in the list`, mend };
}

const FORMS: Readonly<Record<string, string>> = {
  '^\\d{4}-\\d{2}-\\d{2}$': 'year-month-day, for example 2026-03-14',
  '^[A-Z]{3}$': 'three capital letters, such as EUR',
  '^[0-9a-f]{64}$': '64 hexadecimal digits in small letters',
  '^[A-Za-z0-9][A-Za-z0-9._-]*$': 'letters, digits, dots, dashes, without spaces',
};
const inWords = (pattern: string): string => FORMS[pattern] ?? pattern;

function shown(data: unknown): string {
  if (data === undefined) return 'missing';
  if (Array.isArray(data)) return 'a list';
  if (typeof data === 'object' && data !== null) return 'an object';
  const text = JSON.stringify(data) ?? String(data);
  return text.length > 40 ? `${text.slice(0, 37)}...` : text;
}

/** The known name nearest to a mistyped one, at most a third of its letters away; ties by the list's order. */
function nearest(word: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = Math.floor(Math.max(3, word.length) / 3) + 1;
  for (const candidate of known) {
    const steps = editSteps(word.toLowerCase(), candidate.toLowerCase());
    if (steps < least) {
      best = candidate;
      least = steps;
    }
  }
  return best;
}

/** Number of single-letter changes from one word to the other, two letters exchanged counting as one (Damerau 1964). */
function editSteps(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const at = (i: number, j: number) => rows[i]?.[j] ?? 0;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    rows.push(row);
    for (let j = 1; j <= b.length; j++) {
      const swap = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const exchanged = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const turn = exchanged ? at(i - 2, j - 2) + 1 : swap;
      row.push(Math.min(swap, turn, at(i - 1, j) + 1, at(i, j - 1) + 1));
    }
  }
  return at(a.length, b.length);
}
