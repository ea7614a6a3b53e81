import { AT, cellsIn, isOpen, type Observation } from './cells.ts';
import { add, type Block, type Compiled, classOf, keyOf, pack, statusOf, sumOf } from './compile.ts';
import type { DefinitionClass } from './definition.ts';

/** What one block adds to the tallies under what is known, packed. A line not known adds only what is stated for it. */
export function contribution(compiled: Compiled, block: Block, known: Observation): number {
  const key = keyOf(block, known);
  const before = block.memo.get(key);
  if (before !== undefined) return before;
  const statuses = new Map(block.lines.map((l) => [l.line.id, statusOf(l, known)]));
  let code = pack(compiled, {});
  for (const { line } of block.lines) {
    const yields = line.yieldsTo !== undefined && statuses.get(line.yieldsTo) === 'met';
    const status = statuses.get(line.id);
    if (status === 'met' && line.met && !yields) code = add(compiled, code, pack(compiled, line.met));
    if (status === 'not-met' && line.notMet) code = add(compiled, code, pack(compiled, line.notMet));
    if (status !== 'not-known' && line.known) code = add(compiled, code, pack(compiled, line.known));
  }
  block.memo.set(key, code);
  return code;
}

/** Tallies so far: what is not known adds nothing. */
export function soFar(compiled: Compiled, known: Observation): number {
  let code = pack(compiled, {});
  for (const block of compiled.blocks) code = add(compiled, code, contribution(compiled, block, known));
  return code;
}

/** The class by what is known so far, INF-4. */
export const classSoFar = (compiled: Compiled, known: Observation): DefinitionClass =>
  classOf(compiled, soFar(compiled, known));

/** Every way in which the listed tests of a block may still turn out, one observation a way. */
export function waysOf(known: Observation, tests: readonly number[]): readonly Observation[] {
  let ways: Observation[] = [known];
  for (const t of tests) {
    if (!isOpen(known[t]!)) continue;
    ways = ways.flatMap((w) => cellsIn(known[t]!).map((c) => w.with(t, 1 << c)));
  }
  return ways;
}

/** What a block can add once those of its tests that `tried` names are done. */
export function blockCodes(compiled: Compiled, block: Block, state: Tried): readonly number[] {
  const own = block.tests.filter((t) => state.tried.has(t));
  const key = `${keyOf(block, state.known)}:${own.join()}`;
  const before = block.codes.get(key);
  if (before) return before;
  const codes = [...new Set(waysOf(state.known, own).map((w) => contribution(compiled, block, w)))];
  block.codes.set(key, codes);
  return codes;
}

export interface Tried {
  readonly known: Observation;
  /** Positions of the tests that will be done. */
  readonly tried: ReadonlySet<number>;
}

/**
 * Tallies that settle the class for good stand for one another: once a leading rule without an upper limit holds, nothing
 * that is added can undo it. Keeps the sets below small.
 */
export function settledCode(compiled: Compiled, code: number): number {
  const before = compiled.settled.get(code);
  if (before !== undefined) return before;
  const found = isSettled(compiled, code) ? SETTLED : code;
  compiled.settled.set(code, found);
  return found;
}

function isSettled(compiled: Compiled, code: number): boolean {
  const { rules } = compiled.definition;
  for (const rule of rules) {
    if (rule.gives !== rules[0]!.gives) return false;
    const growsOnly = rule.when.every(
      (c) => c.below === undefined && Object.entries(c.sum).every(([t, w]) => w >= 0 && neverFalls(compiled, t)),
    );
    if (!growsOnly) return false;
    if (rule.when.every((c) => sumOf(compiled, code, c.sum) >= (c.atLeast ?? 0))) return true;
  }
  return false;
}

const neverFalls = (compiled: Compiled, tally: string): boolean =>
  compiled.fields.every((f) => f.tally !== tally || f.from >= 0);

/** Stands for every packed tally whose class can no longer change; its class is that of the first rule. */
export const SETTLED = -1;

export function addTo(compiled: Compiled, set: ReadonlySet<number>, codes: readonly number[]): Set<number> {
  const sums = new Set<number>();
  for (const a of set)
    for (const b of codes)
      sums.add(a === SETTLED || b === SETTLED ? SETTLED : settledCode(compiled, add(compiled, a, b)));
  return sums;
}

export function classOfCode(compiled: Compiled, code: number): DefinitionClass {
  if (code !== SETTLED) return classOf(compiled, code);
  const first = compiled.definition.rules[0]!.gives;
  return compiled.definition.classes.find((c) => c.id === first)!;
}

/** An observation for each time since operation that is still possible; one where it is known. */
export const phasesOf = (known: Observation): readonly Observation[] => waysOf(known, [AT.phase]);

/** Tallies that can be reached when the tests named are done, whatever their results; exact. INF-4. */
export function reach(compiled: Compiled, state: Tried): ReadonlySet<number> {
  const all = new Set<number>();
  for (const known of phasesOf(state.known)) {
    let set = new Set<number>([settledCode(compiled, pack(compiled, {}))]);
    for (const block of compiled.blocks) set = addTo(compiled, set, blockCodes(compiled, block, { ...state, known }));
    for (const code of set) all.add(code);
  }
  return all;
}

/** Classes that can be reached when the tests named are done, most infected first. */
export function classesWithin(compiled: Compiled, state: Tried): readonly DefinitionClass[] {
  return inOrder(
    compiled,
    [...reach(compiled, state)].map((c) => classOfCode(compiled, c)),
  );
}

/** Each class once, in the order of the definition. */
export const inOrder = (compiled: Compiled, found: Iterable<DefinitionClass>): readonly DefinitionClass[] => {
  const set = new Set(found);
  return compiled.definition.classes.filter((c) => set.has(c));
};

/** Positions of the tests that a definition asks for and that are not known, in the order of the table. */
export function openTests(compiled: Compiled, known: Observation): readonly number[] {
  const own = new Set(compiled.blocks.flatMap((b) => b.tests));
  return [...own].filter((t) => isOpen(known[t]!)).toSorted((a, b) => a - b);
}
