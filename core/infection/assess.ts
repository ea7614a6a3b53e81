import { AT, isOpen, type Observation } from './cells.ts';
import { type Block, COMPILED, type Compiled, compileFormula, type LineStatus, statusOf, sumOf } from './compile.ts';
import type { Definition, DefinitionClass, DefinitionId } from './definition.ts';
import { testsOf } from './formula.ts';
import { classesWithin, classSoFar, openTests, phasesOf, soFar, waysOf } from './worlds.ts';

export interface LineResult {
  readonly id: string;
  readonly block: string;
  readonly label: string;
  readonly status: LineStatus;
  /** Parts of a line that counts once, each with its own status. */
  readonly parts: readonly { readonly label: string; readonly status: LineStatus }[];
  /** True where the line is met but counted elsewhere, as the single culture is once two agree. */
  readonly countedElsewhere: boolean;
  readonly note: string | null;
}

export interface Score {
  readonly label: string;
  /** What is known so far. */
  readonly soFar: number;
  /** Least and most that can be reached once everything is known. */
  readonly atLeast: number;
  readonly atMost: number;
  readonly max: number;
}

/** One definition applied to what is known. */
export interface Assessment {
  readonly definition: DefinitionId;
  readonly name: string;
  readonly version: string;
  readonly source: string;
  readonly trust: string;
  readonly remark: string;
  /** The class by what is known so far. */
  readonly class: DefinitionClass;
  /** True when no result still missing can change the class, be it had before or at operation. */
  readonly settled: boolean;
  /** Classes that stand once everything is known, most infected first. */
  readonly possible: readonly DefinitionClass[];
  /** Null for lists that count nothing, and where a major criterion decides. */
  readonly score: Score | null;
  readonly lines: readonly LineResult[];
  /** `outside`: the definition has no limits for the weeks after an operation; class and score are shown all the same. */
  readonly range: 'inside' | 'outside' | 'not-known';
  /** True when the class rests on a major criterion, which holds at any time. */
  readonly byMajor: boolean;
}

/** INF-4: every definition side by side, those shown first in front. */
export const assessAll = (known: Observation): readonly Assessment[] => COMPILED.map((c) => assess(c, known));

/** One definition by its id. */
export function assessOne(id: DefinitionId, known: Observation): Assessment {
  const compiled = COMPILED.find((c) => c.definition.id === id);
  if (!compiled) throw new Error(`no definition ${id}`);
  return assess(compiled, known);
}

function assess(compiled: Compiled, known: Observation): Assessment {
  const { definition } = compiled;
  const lines = linesOf(compiled, known);
  const now = classSoFar(compiled, known);
  const possible = classesWithin(compiled, { known, tried: new Set(openTests(compiled, known)) });
  const byMajor = lines.some((l) => l.block === 'Major' && l.status === 'met');
  return {
    definition: definition.id,
    name: definition.name,
    version: definition.version,
    source: definition.source,
    trust: definition.trust,
    remark: definition.remark,
    class: now,
    settled: possible.every((c) => c.id === now.id),
    possible,
    score: byMajor ? null : scoreOf(compiled, known),
    lines,
    range: rangeOf(definition, known),
    byMajor,
  };
}

function rangeOf(definition: Definition, known: Observation): Assessment['range'] {
  if (definition.madeFor !== 'chronic') return 'inside';
  const phase = known[AT.phase]!;
  return isOpen(phase) ? 'not-known' : phase === ACUTE ? 'outside' : 'inside';
}

const ACUTE = 1 << 1;

function linesOf(compiled: Compiled, known: Observation): readonly LineResult[] {
  const found = new Map(compiled.blocks.flatMap((b) => b.lines.map((l) => [l.line.id, statusOf(l, known)] as const)));
  return compiled.definition.lines.map((line) => {
    const status = found.get(line.id)!;
    return {
      id: line.id,
      block: line.block,
      label: line.label,
      status,
      parts: (line.parts ?? []).map((p) => ({
        label: p.label,
        status: statusOf({ tests: testsOf(p.when).map((t) => AT[t]), holds: compileFormula(p.when) }, known),
      })),
      countedElsewhere: status === 'met' && line.yieldsTo !== undefined && found.get(line.yieldsTo) === 'met',
      note: line.note ?? null,
    };
  });
}

/**
 * Least and most of the score: blocks share no test, so their ends add up. A single culture keeps its points here even where
 * a second one would make it a major criterion, for then no score is shown at all.
 */
function scoreOf(compiled: Compiled, known: Observation): Score | null {
  const { score } = compiled.definition;
  if (!score) return null;
  const ends = phasesOf(known).map((phase) => {
    let [least, most] = [0, 0];
    for (const block of compiled.blocks) {
      const sums = waysOf(phase, block.tests).map((w) => blockScore(block, w, score.sum));
      least += Math.min(...sums);
      most += Math.max(...sums);
    }
    return { least, most };
  });
  return {
    label: score.label,
    soFar: sumOf(compiled, soFar(compiled, known), score.sum),
    atLeast: Math.min(...ends.map((e) => e.least)),
    atMost: Math.max(...ends.map((e) => e.most)),
    max: score.max,
  };
}

/** What the lines of a block add to the score in a world where every one of its tests is known. */
function blockScore(block: Block, world: Observation, weights: Readonly<Record<string, number>>): number {
  let sum = 0;
  for (const compiled of block.lines) {
    const adds = statusOf(compiled, world) === 'met' ? compiled.line.met : compiled.line.notMet;
    for (const [tally, amount] of Object.entries(adds ?? {})) sum += (weights[tally] ?? 0) * amount;
  }
  return sum;
}
