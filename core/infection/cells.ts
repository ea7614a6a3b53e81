import { DEFINITIONS } from './definitions/definitions.ts';
import { limitsOf } from './formula.ts';
import { TEST_IDS, TESTS, type TestId } from './tests.ts';

/**
 * One of the results a test can have, as far as any definition tells results apart. A number lies in
 * `over < value <= upTo`; a named result carries neither.
 */
export interface Cell {
  readonly label: string;
  readonly over?: number;
  readonly upTo?: number;
}

const number = (n: number): string => n.toLocaleString('en-US');

function numericCells(test: TestId, unit: string): readonly Cell[] {
  const limits = DEFINITIONS.flatMap((d) => d.lines.flatMap((l) => limitsOf(l.when, test)));
  const cuts = [...new Set(limits)].toSorted((a, b) => a - b);
  return [...cuts, Number.POSITIVE_INFINITY].map((upTo, i) => {
    const over = cuts[i - 1] ?? Number.NEGATIVE_INFINITY;
    if (i === 0) return { label: `${number(upTo)} ${unit} or less`, over, upTo };
    if (i === cuts.length) return { label: `over ${number(over)} ${unit}`, over, upTo };
    return { label: `over ${number(over)} to ${number(upTo)} ${unit}`, over, upTo };
  });
}

/** INF-2: the possible results of every test, cut at the limits of all definitions, least in favour of infection first. */
export const CELLS: Readonly<Record<TestId, readonly Cell[]>> = Object.fromEntries(
  TEST_IDS.map((id) => {
    const test = TESTS[id];
    return [id, 'results' in test ? test.results.map((label) => ({ label })) : numericCells(id, test.unit)];
  }),
) as Record<TestId, readonly Cell[]>;

/** Position of each test in an observation. */
export const AT: Readonly<Record<TestId, number>> = Object.fromEntries(TEST_IDS.map((id, i) => [id, i])) as Record<
  TestId,
  number
>;

/**
 * What is known, one whole number a test in the order of TEST_IDS: bit i is set while cell i is still possible. All
 * bits set = not known; one bit = known; a result below the limit of its assay may leave several.
 */
export type Observation = readonly number[];

export const everyCell = (id: TestId): number => (1 << CELLS[id].length) - 1;

/** Nothing known. */
export const NOTHING_KNOWN: Observation = TEST_IDS.map(everyCell);

/** True while more than one result is still possible. */
export const isOpen = (mask: number): boolean => (mask & (mask - 1)) !== 0;

/** Positions of the cells still possible, ascending. */
export function cellsIn(mask: number): readonly number[] {
  const found: number[] = [];
  for (let i = 0; mask >> i; i++) if ((mask >> i) & 1) found.push(i);
  return found;
}
