import { type AnalyteId, analyte } from '@gapline/core/laboratory/analyte.ts';
import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import { UNITS } from '@gapline/core/laboratory/unit.ts';

/** Value, comparator and unit of a result as typed on one line. */
export interface TypedResult {
  readonly value: LabResult['value'];
  readonly comparator?: '<' | '>';
  readonly unit?: string;
}

/**
 * `25 mg/L`, `< 5 mg/L`, `2,4 mg/dL`, `++`, `positive`: what was typed, taken apart. A text that begins with no
 * number is kept whole as a word; nothing is refused here, the reader of results marks what is wrong.
 */
export function typedResult(text: string): TypedResult {
  const parts = /^([<>])?\s*([-−]?\d+(?:[.,]\d+)?)\s*(.*)$/.exec(text.trim());
  if (!parts) return { value: text.trim() };
  const [, comparator, number = '', rest = ''] = parts;
  // A strip may be reported as 2+; that is a word, not a number.
  if (/^\++$/.test(rest)) return { value: text.trim() };
  return {
    value: Number(number.replace(',', '.').replace('−', '-')),
    ...(comparator === undefined ? {} : { comparator: comparator as '<' | '>' }),
    ...(rest === '' ? {} : { unit: rest }),
  };
}

/** The same result as one line of text. */
export const resultText = (result: Pick<LabResult, 'value' | 'comparator'>): string =>
  `${result.comparator ? `${result.comparator} ` : ''}${result.value}`;

/** Spellings of units to choose from, the one in which values are kept first. */
export function unitsOf(id: AnalyteId): readonly string[] {
  const kept = analyte(id).unit;
  const spelt = UNITS[id].flatMap((u) => u.spelt.slice(0, 1)).map(pretty);
  return [...new Set(kept === null ? spelt : [kept, ...spelt])];
}

const pretty = (unit: string): string =>
  unit
    .replace(/l$/, 'L')
    .replace(/l(feu|ddu)$/, (_, kind: string) => `L ${kind.toUpperCase()}`)
    .replace('dl', 'dL')
    .replace(/\/ml/, '/mL')
    .replace('10*', 'x10^');
