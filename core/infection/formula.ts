import type { TestId } from './tests.ts';

/** A condition of a definition, as data. `over` is strict: equality is not met. INF-2. */
export type Formula =
  | { readonly test: TestId; readonly over: number }
  | { readonly test: TestId; readonly is: readonly string[] }
  | { readonly any: readonly Formula[] }
  | { readonly all: readonly Formula[] }
  | { readonly not: Formula };

export const over = (test: TestId, limit: number): Formula => ({ test, over: limit });
export const is = (test: TestId, ...results: readonly string[]): Formula => ({ test, is: results });
export const any = (...of: readonly Formula[]): Formula => ({ any: of });
export const all = (...of: readonly Formula[]): Formula => ({ all: of });
export const not = (of: Formula): Formula => ({ not: of });

/** Tests that a condition asks for, each once, in the order of the condition. */
export function testsOf(formula: Formula): readonly TestId[] {
  if ('test' in formula) return [formula.test];
  const inner = 'not' in formula ? [formula.not] : 'any' in formula ? formula.any : formula.all;
  return [...new Set(inner.flatMap(testsOf))];
}

/** Limits that a condition compares a test with. */
export function limitsOf(formula: Formula, test: TestId): readonly number[] {
  if ('test' in formula) return formula.test === test && 'over' in formula ? [formula.over] : [];
  const inner = 'not' in formula ? [formula.not] : 'any' in formula ? formula.any : formula.all;
  return inner.flatMap((f) => limitsOf(f, test));
}
