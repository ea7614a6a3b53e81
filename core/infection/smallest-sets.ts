import { CELLS, cellsIn, type Observation } from './cells.ts';
import { add, COMPILED, type Compiled, classOf, pack } from './compile.ts';
import type { DefinitionId, Standing } from './definition.ts';
import { canStillChange, changesWithin, everReached, type Horizon, withinHorizon } from './reachable.ts';
import { TEST_IDS, TESTS, type TestId } from './tests.ts';
import { blockCodes, classesWithin, classOfCode, classSoFar, contribution } from './worlds.ts';

/** Tests to be done together, each with the results that would do; any combination of those results does. */
export interface ResultSet {
  readonly tests: readonly { readonly test: TestId; readonly label: string; readonly results: readonly string[] }[];
}

export interface Sets {
  /** `already`: nothing more is needed; `never`: no results within the horizon can do it. */
  readonly state: 'already' | 'possible' | 'never';
  /** Sets of which no part would do, smallest first, then in the order of the table of tests. */
  readonly sets: readonly ResultSet[];
}

export interface SmallestSets {
  readonly definition: DefinitionId;
  /** Results that would give the class "infected". */
  readonly confirm: Sets;
  /** Results that would give the class "not infected" or "unlikely" by what is then known. */
  readonly exclude: Sets;
  /** Results after which no other test within the horizon could lift that class again. */
  readonly excludeForCertain: Sets;
}

/** Sets larger than this are given only where no smaller one does. */
export const LARGEST_LISTED = 3;

/**
 * INF-12: the smallest sets of further results that could confirm or exclude infection by one definition, out of the
 * tests within the horizon. Complete up to LARGEST_LISTED tests, and up to the smallest size that does where that is larger.
 */
export function smallestSets(id: DefinitionId, known: Observation, horizon: Horizon): SmallestSets {
  const compiled = COMPILED.find((c) => c.definition.id === id);
  if (!compiled) throw new Error(`no definition ${id}`);
  const asked = withinHorizon(compiled, known, horizon);
  const changes = changesWithin(compiled, known, asked);
  const open = asked.filter((t) => canStillChange(changes, t));
  return {
    definition: id,
    confirm: reachingSets(compiled, known, { open, standing: 'confirmed' }),
    exclude: reachingSets(compiled, known, { open, standing: 'excluded' }),
    excludeForCertain: certainSets(compiled, known, open),
  };
}

interface Goal {
  readonly open: readonly number[];
  readonly standing: Standing;
}

function reachingSets(compiled: Compiled, known: Observation, goal: Goal): Sets {
  if (classSoFar(compiled, known).standing === goal.standing) return { state: 'already', sets: [] };
  const ever = everReached(compiled, known, goal.open);
  if (![...ever].some((c) => classOfCode(compiled, c).standing === goal.standing)) return { state: 'never', sets: [] };
  const found: (readonly number[])[] = [];
  for (let size = 1; size <= goal.open.length; size++) {
    if (found.length > 0 && size > LARGEST_LISTED) break;
    for (const tests of choose(goal.open, size))
      if (!found.some((f) => f.every((t) => tests.includes(t))) && canReach(compiled, known, { ...goal, open: tests }))
        found.push(tests);
  }
  return { state: 'possible', sets: found.flatMap((tests) => boxes(compiled, known, { ...goal, open: tests })) };
}

/** All ways to take `size` of the tests, in the order of the table. */
function choose(tests: readonly number[], size: number): readonly (readonly number[])[] {
  if (size === 0) return [[]];
  return tests.flatMap((t, i) => choose(tests.slice(i + 1), size - 1).map((rest) => [t, ...rest]));
}

/** True when some results of exactly these tests, the others undone, give a class of that standing. */
function canReach(compiled: Compiled, known: Observation, goal: Goal): boolean {
  const tried = new Set(goal.open);
  const touched = compiled.blocks.filter((b) => b.tests.some((t) => tried.has(t)));
  let codes: readonly number[] = [
    compiled.blocks
      .filter((b) => !touched.includes(b))
      .reduce((sum, b) => add(compiled, sum, contribution(compiled, b, known)), pack(compiled, {})),
  ];
  for (const block of touched) {
    const adds = blockCodes(compiled, block, { known, tried });
    codes = [...new Set(codes.flatMap((a) => adds.map((b) => add(compiled, a, b))))];
  }
  return codes.some((c) => classOf(compiled, c).standing === goal.standing);
}

/** The results of these tests that reach the goal, as few listings as their first tests allow. */
function boxes(compiled: Compiled, known: Observation, goal: Goal): readonly ResultSet[] {
  const walk = (depth: number, then: Observation): readonly (readonly (readonly number[])[])[] => {
    const t = goal.open[depth];
    if (t === undefined) return classSoFar(compiled, then).standing === goal.standing ? [[]] : [];
    const byRest = new Map<string, { cells: number[]; rest: readonly (readonly number[])[] }>();
    for (const cell of cellsIn(known[t]!))
      for (const rest of walk(depth + 1, then.with(t, 1 << cell))) {
        const key = JSON.stringify(rest);
        const group = byRest.get(key) ?? { cells: [], rest };
        group.cells.push(cell);
        byRest.set(key, group);
      }
    return [...byRest.values()].map((g) => [g.cells, ...g.rest]);
  };
  return walk(0, known).map((cells) => ({
    tests: goal.open.map((t, i) => named(t, cells[i]!)),
  }));
}

const named = (at: number, cells: readonly number[]) => {
  const test = TEST_IDS[at]!;
  return { test, label: TESTS[test].label, results: cells.map((c) => CELLS[test][c]!.label) };
};

/**
 * Sets of tests which, each with its result least in favour of infection, leave nothing that the others could lift. Tests
 * that may be left undone together are collected from the smallest sets upward: what may not be left out together with
 * fewer may not with more.
 */
function certainSets(compiled: Compiled, known: Observation, open: readonly number[]): Sets {
  const holds = (left: readonly number[]): boolean => {
    const then = allLowest(
      known,
      open.filter((t) => !left.includes(t)),
    );
    return classesWithin(compiled, { known: then, tried: new Set(left) }).every((c) => c.standing === 'excluded');
  };
  if (holds(open)) return { state: 'already', sets: [] };
  if (!holds([])) return { state: 'never', sets: [] };
  let level: (readonly number[])[] = [[]];
  const largest: (readonly number[])[] = [];
  while (level.length > 0) {
    const keys = new Set(level.map((l) => l.join()));
    const next = level.flatMap((left) =>
      open
        .filter((t) => t > (left.at(-1) ?? -1))
        .map((t) => [...left, t])
        .filter((l) => l.every((t) => keys.has(l.filter((u) => u !== t).join())) && holds(l)),
    );
    largest.push(...level.filter((l) => !next.some((n) => l.every((t) => n.includes(t)))));
    level = next;
  }
  const sets = largest.map((left) => open.filter((t) => !left.includes(t))).toSorted(bySizeThenOrder);
  return { state: 'possible', sets: sets.map((tests) => ({ tests: tests.map((t) => lowestOf(known, t)) })) };
}

const allLowest = (known: Observation, tests: readonly number[]): Observation => {
  const then = [...known];
  for (const t of tests) then[t] = known[t]! & -known[t]!;
  return then;
};

const lowestOf = (known: Observation, at: number) => named(at, [cellsIn(known[at]!)[0]!]);

function bySizeThenOrder(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length) return a.length - b.length;
  const i = a.findIndex((t, k) => t !== b[k]);
  return i < 0 ? 0 : a[i]! - b[i]!;
}
