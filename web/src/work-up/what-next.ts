import type { DefinitionId } from '@gapline/core/infection/definition.ts';
import { DEFINITIONS } from '@gapline/core/infection/definitions/definitions.ts';
import type { NextTests, TestEffect } from '@gapline/core/infection/next-test.ts';

export const definitionName = (id: DefinitionId): string => DEFINITIONS.find((d) => d.id === id)?.name ?? id;

/** Results of one test that move one definition to one class, told together. */
export interface Move {
  readonly definition: DefinitionId;
  readonly to: string;
  readonly results: readonly string[];
}

/** What each result of a test does at once, results of the same effect together, in the order of the results. */
export function movesOf(effect: TestEffect): readonly Move[] {
  const moves = new Map<string, { definition: DefinitionId; to: string; results: string[] }>();
  for (const { result, after } of effect.results)
    for (const a of after) {
      if (!a.changes) continue;
      const key = `${a.definition} ${a.class.id}`;
      const move = moves.get(key) ?? { definition: a.definition, to: a.class.label, results: [] };
      move.results.push(result);
      moves.set(key, move);
    }
  return [...moves.values()];
}

/** The answer in one or two plain sentences: which test would change most, and how. */
export function sentenceOf(next: NextTests): string {
  const first = next.tests[0];
  const when = next.horizon === 'before' ? 'before the joint is opened' : 'now or at operation';
  if (!first) return `No test still to be had ${when} can change either class.`;
  const moves = movesOf(first);
  if (moves.length === 0)
    return `No single test ${when} changes a class by itself; ${lower(first.label)} could together with others.`;
  const told = effectsByResults(moves).map(
    ([results, to]) => `If ${results}: ${to.map((m) => `${definitionName(m.definition)} ${lower(m.to)}`).join(', ')}.`,
  );
  return `${first.label}. ${told.join(' ')}`;
}

/** Moves that the same results bring about, told once. */
function effectsByResults(moves: readonly Move[]): readonly (readonly [string, readonly Move[]])[] {
  const groups = new Map<string, Move[]>();
  for (const move of moves) {
    const results = endsOf(move.results);
    groups.set(results, [...(groups.get(results) ?? []), move]);
  }
  return [...groups];
}

/** Two results or more in a row are told by their ends. */
export const endsOf = (results: readonly string[]): string => {
  if (results.length <= 2) return results.join(' or ');
  return `${results[0]} up to ${results.at(-1)}`;
};

/** Shortenings such as CRP keep their capitals. */
const lower = (label: string): string =>
  /^[A-Z][a-z]/.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
