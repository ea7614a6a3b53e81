import { AT, CELLS, cellsIn, isOpen, type Observation } from './cells.ts';
import { COMPILED, type Compiled } from './compile.ts';
import type { DefinitionClass, DefinitionId } from './definition.ts';
import { type Changes, canStillChange, changesWithin, type Horizon, withinHorizon } from './reachable.ts';
import { type RestSums, restSumsByPhase } from './rest-sums.ts';
import { TEST_IDS, TESTS, type TestId, type TestStage } from './tests.ts';
import { addTo, blockCodes, classOfCode, classSoFar, inOrder, openTests } from './worlds.ts';

/** What one result would do to one definition. */
export interface ClassAfter {
  readonly definition: DefinitionId;
  /** Class by what is then known. */
  readonly class: DefinitionClass;
  readonly changes: boolean;
  /** Classes that the other tests within the horizon could still give, most infected first; one = settled. */
  readonly possible: readonly DefinitionClass[];
}

export interface TestEffect {
  readonly test: TestId;
  readonly label: string;
  readonly stage: TestStage;
  /** Every result that any definition tells apart, least in favour of infection first. */
  readonly results: readonly { readonly result: string; readonly after: readonly ClassAfter[] }[];
  /** Definitions whose class the test can still change, by itself or together with others. */
  readonly canChange: readonly DefinitionId[];
  /** Definitions whose class one of its results changes at once. */
  readonly changesAtOnce: readonly DefinitionId[];
}

export interface NextTests {
  readonly horizon: Horizon;
  /** Tests not known that can still change a class: those that change most definitions at once first. */
  readonly tests: readonly TestEffect[];
  /** Tests not known whose result can change no class any more. */
  readonly cannotChange: readonly TestId[];
}

/**
 * INF-11: what each test that is not known would change. Every possible result of every such test is tried, results
 * partitioned at the limits of the definitions. `horizon` says which other tests may still come: only those had before
 * the operation, or all. Exact; order: most definitions changed at once, then most that can change, then the table's.
 */
export function nextTests(
  known: Observation,
  options: { readonly horizon: Horizon; readonly definitions?: readonly DefinitionId[] },
): NextTests {
  const { definitions } = options;
  const compiled = COMPILED.filter((c) => definitions === undefined || definitions.includes(c.definition.id));
  const per = compiled.map((c) => ask(c, known, options.horizon));
  const asked = TEST_IDS.filter((id) => per.some((p) => p.open.includes(AT[id])));
  const effects = asked.map((id) => effectOf(id, known, per));
  const useful = effects.filter((e) => e.canChange.length > 0);
  return {
    horizon: options.horizon,
    tests: useful.toSorted(
      (a, b) =>
        b.changesAtOnce.length - a.changesAtOnce.length ||
        b.canChange.length - a.canChange.length ||
        AT[a.test] - AT[b.test],
    ),
    cannotChange: effects.filter((e) => e.canChange.length === 0).map((e) => e.test),
  };
}

interface Asked {
  readonly compiled: Compiled;
  readonly open: readonly number[];
  readonly now: DefinitionClass;
  readonly sums: readonly RestSums[];
  readonly changes: Changes;
}

function ask(compiled: Compiled, known: Observation, horizon: Horizon): Asked {
  const open = withinHorizon(compiled, known, horizon);
  const tried = new Set(open);
  return {
    compiled,
    open,
    now: classSoFar(compiled, known),
    sums: restSumsByPhase(compiled, known, (block, then) => blockCodes(compiled, block, { known: then, tried })),
    changes: changesWithin(compiled, known, open),
  };
}

function effectOf(id: TestId, known: Observation, per: readonly Asked[]): TestEffect {
  const at = AT[id];
  const asking = per.filter((p) => p.open.includes(at));
  const results = offeredCells(id, known).map((cell) => {
    const then = known.with(at, 1 << cell);
    return {
      result: CELLS[id][cell]!.label,
      after: asking.map((p) => classAfter(p, at, then)),
    };
  });
  const changesAtOnce = asking
    .map((p) => p.compiled.definition.id)
    .filter((d) => results.some((r) => r.after.some((a) => a.definition === d && a.changes)));
  const canChange = asking
    .filter((p) => changesAtOnce.includes(p.compiled.definition.id) || canStillChange(p.changes, at))
    .map((p) => p.compiled.definition.id);
  return { test: id, label: TESTS[id].label, stage: TESTS[id].stage, results, canChange, changesAtOnce };
}

function classAfter(p: Asked, at: number, then: Observation): ClassAfter {
  const now = classSoFar(p.compiled, then);
  return {
    definition: p.compiled.definition.id,
    class: now,
    changes: now.id !== p.now.id,
    possible: possibleAfter(p, at, then),
  };
}

/** Classes once the other tests are done too: sums of the other blocks, joined with what this one can then add. */
function possibleAfter(p: Asked, at: number, then: Observation): readonly DefinitionClass[] {
  const { compiled, open } = p;
  const place = compiled.blocks.findIndex((b) => b.tests.includes(at));
  const block = compiled.blocks[place]!;
  const tried = new Set(open.filter((t) => t !== at));
  const found = new Set<DefinitionClass>();
  for (const sums of p.sums) {
    const known = then.with(AT.phase, sums.known[AT.phase]!);
    for (const code of addTo(compiled, sums.rest(place), blockCodes(compiled, block, { known, tried })))
      found.add(classOfCode(compiled, code));
  }
  return inOrder(compiled, found);
}

/** Results that a test alone can have: a culture cannot match an aspirate that has not grown or not been read. */
function offeredCells(id: TestId, known: Observation): readonly number[] {
  const cells = cellsIn(known[AT[id]]!);
  if (id !== 'tissue-culture') return cells;
  const aspirate = known[AT['aspirate-culture']]!;
  const grew = !isOpen(aspirate) && aspirate > 1;
  return cells.filter((c) => grew || !CELLS[id][c]!.label.startsWith('same organism as the aspirate'));
}

/** Tests that no definition has an answer for yet, whatever their horizon. */
export const testsNotKnown = (known: Observation): readonly TestId[] =>
  TEST_IDS.filter((id) => COMPILED.some((c) => openTests(c, known).includes(AT[id])));
