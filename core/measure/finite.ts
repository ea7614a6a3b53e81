import { cannot, type Outcome, ok } from './outcome.ts';

/**
 * Gives the number back when it is finite, `cannot` otherwise. Every border between typed-in or
 * file data and a formula passes through here, so that no NaN can travel inward.
 */
export function finite(value: unknown, field: string): Outcome<number> {
  if (typeof value === 'number' && Number.isFinite(value)) return ok(value);
  return cannot({
    code: 'not-a-finite-number',
    message: `${field} is not a number.`,
    field,
    mend: `Give ${field} as a plain decimal number.`,
  });
}
