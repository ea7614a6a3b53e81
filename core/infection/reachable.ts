import { AT, cellsIn, isOpen, type Observation } from './cells.ts';
import { add, type Block, type Compiled, keyOf, pack } from './compile.ts';
import { type RestSums, restSums } from './rest-sums.ts';
import { TEST_IDS, TESTS } from './tests.ts';
import { addTo, classOfCode, contribution, openTests, settledCode } from './worlds.ts';

/** `before` = what can be had before the joint is opened; `all` = cultures, histology and the rest of the operation too. */
export type Horizon = 'before' | 'all';

/** Tests that a definition still asks for within the horizon, by position. */
export const withinHorizon = (compiled: Compiled, known: Observation, horizon: Horizon): readonly number[] =>
  openTests(compiled, known).filter((t) => horizon === 'all' || TESTS[TEST_IDS[t]!].stage === 'before');

/** As when each of the tests may be done with any result, or left undone. */
function waysOrOpen(known: Observation, tests: readonly number[]): readonly Observation[] {
  let ways: Observation[] = [known];
  for (const t of tests) {
    if (!isOpen(known[t]!)) continue;
    ways = ways.flatMap((w) => [w, ...cellsIn(known[t]!).map((c) => w.with(t, 1 << c))]);
  }
  return ways;
}

/** What a block can add at some time, whichever of the tests have been done by then. */
function everAdded(
  compiled: Compiled,
  block: Block,
  state: { readonly known: Observation; readonly tests: ReadonlySet<number> },
): readonly number[] {
  const own = block.tests.filter((t) => state.tests.has(t));
  const key = `${keyOf(block, state.known)}?${own.join()}`;
  const before = block.codes.get(key);
  if (before) return before;
  const codes = [...new Set(waysOrOpen(state.known, own).map((w) => contribution(compiled, block, w)))];
  block.codes.set(key, codes);
  return codes;
}

/** Classes that can stand at some time, whichever of the tests have been done by then. */
export function everReached(compiled: Compiled, known: Observation, tests: readonly number[]): ReadonlySet<number> {
  const set = new Set(tests);
  let sums = new Set<number>([settledCode(compiled, pack(compiled, {}))]);
  for (const block of compiled.blocks) sums = addTo(compiled, sums, everAdded(compiled, block, { known, tests: set }));
  return sums;
}

/** Sums of everything that the tests of the horizon could add at some time, kept for asking about one test after another. */
export interface Changes {
  readonly compiled: Compiled;
  readonly tests: readonly number[];
  readonly sums: readonly RestSums[];
}

export function changesWithin(compiled: Compiled, known: Observation, tests: readonly number[]): Changes {
  const set = new Set(tests);
  const adds = (block: Block, then: Observation) => everAdded(compiled, block, { known: then, tests: set });
  return { compiled, tests, sums: waysOrOpen(known, [AT.phase]).map((phase) => restSums(compiled, phase, adds)) };
}

/**
 * Whether the result of one test can still change the class of a definition, now or after any further results of the
 * other tests within the horizon. Exact: false means that nothing that can come makes it matter. INF-11.
 */
export function canStillChange(changes: Changes, test: number): boolean {
  const { compiled } = changes;
  const place = compiled.blocks.findIndex((b) => b.tests.includes(test));
  const block = compiled.blocks[place];
  if (!block) return false;
  const others = new Set(changes.tests.filter((t) => t !== test));
  return changes.sums.some((sums) => {
    const pairs = changesIn(compiled, block, { known: sums.known, test, others });
    const differs = (rest: number) =>
      pairs.some(([undone, done]) => classAfter(compiled, rest, undone) !== classAfter(compiled, rest, done));
    if (pairs.length === 0) return false;
    // Worlds in which only the blocks on one side have moved come first, for they usually answer.
    const [before, after] = [blocksSum(compiled, sums.known, [0, place]), blocksSum(compiled, sums.known, [place + 1])];
    for (const rest of addTo(compiled, sums.front(place), [after])) if (differs(rest)) return true;
    for (const rest of addTo(compiled, sums.back(place), [before])) if (differs(rest)) return true;
    for (const rest of sums.rest(place)) if (differs(rest)) return true;
    return false;
  });
}

/** Sum of what a run of blocks adds with nothing more done. */
const blocksSum = (compiled: Compiled, known: Observation, range: readonly [number, number?]): number =>
  compiled.blocks
    .slice(...range)
    .reduce((sum, block) => add(compiled, sum, contribution(compiled, block, known)), pack(compiled, {}));

const classAfter = (compiled: Compiled, rest: number, code: number) =>
  classOfCode(compiled, rest < 0 ? rest : settledCode(compiled, add(compiled, rest, code)));

/** What the block adds without the test and with each of its results, where the two differ; each pair once. */
function changesIn(
  compiled: Compiled,
  block: Block,
  at: { readonly known: Observation; readonly test: number; readonly others: ReadonlySet<number> },
): readonly (readonly [number, number])[] {
  const pairs = new Map<string, readonly [number, number]>();
  const own = block.tests.filter((t) => at.others.has(t));
  for (const way of waysOrOpen(at.known, own)) {
    const undone = contribution(compiled, block, way);
    for (const c of cellsIn(at.known[at.test]!)) {
      const done = contribution(compiled, block, way.with(at.test, 1 << c));
      if (done !== undone) pairs.set(`${undone},${done}`, [undone, done]);
    }
  }
  return [...pairs.values()];
}
