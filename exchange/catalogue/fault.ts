import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { ErrorObject } from 'ajv/dist/2020.js';

/** A fault before it is known in which file it stands: where, what, and the mend. */
export interface Fault {
  readonly code: string;
  /** JSON Pointer of the value at fault, e.g. `/femurs/3/apMm`; empty = the whole. */
  readonly pointer: string;
  readonly what: string;
  readonly mend: string;
}

/** `/femurs/3/apMm` as `femurs[3].apMm`. */
export const fieldOf = (pointer: string): string =>
  pointer
    .split('/')
    .slice(1)
    .reduce((path, name) => (/^\d+$/.test(name) ? `${path}[${name}]` : path ? `${path}.${name}` : name), '');

/** One fault of a JSON file, in words. */
export function inFile({ code, pointer, what, mend }: Fault, file: string): Reason {
  const field = fieldOf(pointer);
  return { code, message: `${file}: ${field || 'the file'} ${what}.`, file, ...(field ? { field } : {}), mend };
}

const WORD_FOR: Readonly<Record<string, string>> = {
  number: 'a plain decimal number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
};

const shown = (data: unknown): string =>
  typeof data === 'object' && data !== null ? (Array.isArray(data) ? 'a list' : 'an object') : JSON.stringify(data);

/** What the schema found, in words. */
export function faultOf(error: ErrorObject): Fault {
  const p = error.params as Record<string, unknown>;
  const at = error.instancePath;
  switch (error.keyword) {
    case 'required': {
      const child = String(p.missingProperty);
      return { code: 'field-missing', pointer: `${at}/${child}`, what: 'is missing', mend: `Give ${child}.` };
    }
    case 'additionalProperties': {
      const child = String(p.additionalProperty);
      return {
        code: 'field-unknown',
        pointer: `${at}/${child}`,
        what: 'is not a field of a catalogue',
        mend: 'Remove it, or see docs/catalogue.md for the name that was meant.',
      };
    }
    case 'type': {
      const word = WORD_FOR[String(p.type)] ?? String(p.type);
      return {
        code: 'wrong-type',
        pointer: at,
        what: `is ${shown(error.data)}, but should be ${word}`,
        mend: `Give ${word}.`,
      };
    }
    case 'enum':
    case 'const': {
      const allowed = (p.allowedValues as unknown[] | undefined) ?? [p.allowedValue];
      return {
        code: 'not-in-list',
        pointer: at,
        what: `is ${shown(error.data)}, which is not in the list`,
        mend: `Use one of: ${allowed.join(', ')}.`,
      };
    }
    case 'minimum':
    case 'maximum':
    case 'exclusiveMinimum':
    case 'exclusiveMaximum':
      return {
        code: 'out-of-range',
        pointer: at,
        what: `is ${shown(error.data)}, but must be ${p.comparison} ${p.limit}`,
        mend: 'Correct the number.',
      };
    case 'minItems':
      return {
        code: 'too-few',
        pointer: at,
        what: `holds fewer than ${p.limit} entries`,
        mend: `Give at least ${p.limit}.`,
      };
    case 'pattern':
    case 'minLength':
      return {
        code: 'wrong-form',
        pointer: at,
        what: `is ${shown(error.data)}, which has not the form asked for`,
        mend: 'See docs/catalogue.md for the form.',
      };
    default:
      return {
        code: 'not-allowed',
        pointer: at,
        what: error.message ?? 'is not allowed',
        mend: 'See docs/catalogue.md.',
      };
  }
}
