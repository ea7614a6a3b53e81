import { AT, CELLS, cellsIn, type Observation } from './cells.ts';
import type { ClassRule, Definition, DefinitionClass, DefinitionLine } from './definition.ts';
import { DEFINITIONS } from './definitions/definitions.ts';
import { type Formula, testsOf } from './formula.ts';
import { TEST_IDS } from './tests.ts';

/** `not known` is a result of its own. */
export type LineStatus = 'met' | 'not-met' | 'not-known';

/** Cell of each test, by position; only the tests of the condition are read. */
type Holds = (cells: readonly number[]) => boolean;

export interface CompiledLine {
  readonly line: DefinitionLine;
  /** Positions of the tests that the condition reads. */
  readonly tests: readonly number[];
  readonly holds: Holds;
}

/** Lines that share tests: what one block adds does not depend on any other. */
export interface Block {
  readonly lines: readonly CompiledLine[];
  /** Positions of its tests, the time since the last operation apart. */
  readonly tests: readonly number[];
  /** Where each of its tests, and then the time since operation, stands in the key of the memos. */
  readonly shifts: readonly number[];
  /** What it adds, by what is known of its tests. */
  readonly memo: Map<number, number>;
  /** What it can add once some of its tests are done, by what is known and which are done. */
  readonly codes: Map<string, readonly number[]>;
}

/** A definition made ready: its tallies packed into one whole number, so that sums are quick and sets are small. */
export interface Compiled {
  readonly definition: Definition;
  readonly blocks: readonly Block[];
  readonly fields: readonly Field[];
  readonly classes: Map<number, DefinitionClass>;
  readonly settled: Map<number, number>;
}

export interface Field {
  readonly tally: string;
  readonly from: number;
  readonly width: number;
  readonly shift: number;
  readonly mask: number;
}

export function compileFormula(formula: Formula): Holds {
  if ('test' in formula) {
    const at = AT[formula.test];
    const cells = CELLS[formula.test].map((c) =>
      'over' in formula ? (c.over ?? Number.NEGATIVE_INFINITY) >= formula.over : formula.is.includes(c.label),
    );
    return (known) => cells[known[at]!] === true;
  }
  if ('not' in formula) {
    const inner = compileFormula(formula.not);
    return (known) => !inner(known);
  }
  const inner = ('any' in formula ? formula.any : formula.all).map(compileFormula);
  return 'any' in formula ? (known) => inner.some((f) => f(known)) : (known) => inner.every((f) => f(known));
}

/**
 * INF-3: a condition under what is known: met when it holds for every result still possible, not met when for none,
 * else not known. Exact: all results still possible of the tests it reads are tried together.
 */
export function statusOf(line: Pick<CompiledLine, 'tests' | 'holds'>, known: Observation): LineStatus {
  const cells: number[] = [];
  let yes = false;
  let no = false;
  const walk = (depth: number): void => {
    if (yes && no) return;
    const at = line.tests[depth];
    if (at === undefined) {
      if (line.holds(cells)) yes = true;
      else no = true;
      return;
    }
    for (const c of cellsIn(known[at]!)) {
      cells[at] = c;
      walk(depth + 1);
    }
  };
  walk(0);
  return yes && no ? 'not-known' : yes ? 'met' : 'not-met';
}

const compileLine = (line: DefinitionLine): CompiledLine => ({
  line,
  tests: testsOf(line.when).map((t) => AT[t]),
  holds: compileFormula(line.when),
});

/** Groups lines that share a test, directly or through others; the time since operation joins nothing. */
function blocksOf(lines: readonly CompiledLine[]): readonly Block[] {
  const groups: { lines: CompiledLine[]; tests: Set<number> }[] = [];
  for (const line of lines) {
    const own = line.tests.filter((t) => t !== AT.phase);
    const joined = groups.filter((g) => own.some((t) => g.tests.has(t)));
    for (const g of joined) groups.splice(groups.indexOf(g), 1);
    groups.push({
      lines: [...joined.flatMap((g) => g.lines), line],
      tests: new Set([...joined.flatMap((g) => [...g.tests]), ...own]),
    });
  }
  return groups.map((g) => {
    const tests = [...g.tests].toSorted((a, b) => a - b);
    return { lines: g.lines, tests, shifts: shiftsOf([...tests, AT.phase]), memo: new Map(), codes: new Map() };
  });
}

function shiftsOf(tests: readonly number[]): readonly number[] {
  let shift = 0;
  return tests.map((t) => {
    const at = shift;
    shift += CELLS[TEST_IDS[t]!].length;
    return at;
  });
}

/** What is known of a block's tests as one whole number. */
export function keyOf(block: Block, known: Observation): number {
  let key = known[AT.phase]! << block.shifts[block.tests.length]!;
  for (let i = 0; i < block.tests.length; i++) key |= known[block.tests[i]!]! << block.shifts[i]!;
  return key;
}

function fieldsOf(definition: Definition): readonly Field[] {
  let shift = 0;
  return Object.entries(definition.tallies).map(([tally, [from, to]]) => {
    const bits = Math.ceil(Math.log2(to - from + 1));
    const field = { tally, from, width: to - from, shift, mask: (1 << bits) - 1 };
    shift += bits;
    return field;
  });
}

const compile = (definition: Definition): Compiled => ({
  definition,
  blocks: blocksOf(definition.lines.map(compileLine)),
  fields: fieldsOf(definition),
  classes: new Map(),
  settled: new Map(),
});

export const COMPILED: readonly Compiled[] = DEFINITIONS.map(compile);

/** Sum of two packed tallies, each stopped at the ends of its range. */
export function add(compiled: Compiled, a: number, b: number): number {
  let sum = 0;
  for (const f of compiled.fields) {
    const v = ((a >> f.shift) & f.mask) + ((b >> f.shift) & f.mask) + f.from;
    sum |= Math.max(0, Math.min(v, f.width)) << f.shift;
  }
  return sum;
}

/** Packs tallies that are given by name; a tally not named is zero. */
export function pack(compiled: Compiled, tallies: Readonly<Record<string, number>>): number {
  let code = 0;
  for (const f of compiled.fields) {
    const v = (tallies[f.tally] ?? 0) - f.from;
    code |= Math.max(0, Math.min(v, f.width)) << f.shift;
  }
  return code;
}

/** Weighted sum of tallies in a packed number. */
export function sumOf(compiled: Compiled, code: number, weights: Readonly<Record<string, number>>): number {
  let sum = 0;
  for (const f of compiled.fields) sum += (weights[f.tally] ?? 0) * (((code >> f.shift) & f.mask) + f.from);
  return sum;
}

const ruleHolds = (compiled: Compiled, rule: ClassRule, code: number): boolean =>
  rule.when.every((c) => {
    const sum = sumOf(compiled, code, c.sum);
    return (c.atLeast === undefined || sum >= c.atLeast) && (c.below === undefined || sum < c.below);
  });

/** The class that a definition's rules give: the first rule that holds. */
export function classOf(compiled: Compiled, code: number): DefinitionClass {
  const before = compiled.classes.get(code);
  if (before) return before;
  const { rules, classes } = compiled.definition;
  const rule = rules.find((r) => ruleHolds(compiled, r, code));
  const found = classes.find((c) => c.id === rule?.gives);
  if (!found) throw new Error(`${compiled.definition.id}: no rule gives a class`);
  compiled.classes.set(code, found);
  return found;
}
