import { type Reduced, reduceCover } from './cover/reduce.ts';
import type { KitProblem } from './kit-problem.ts';
import { indicesOf, maskOf, NO_SETS, type SetMask, union, without } from './set-mask.ts';

/** Share of openings that must have an answer where nothing else is asked, % (KIT-5). */
export const SHARE_PCT = 99;

export interface KitWanted {
  /** Share of the drawn knees that must be covered, %, above 0 to 100; default 99. */
  readonly sharePct?: number;
  /** Sets that come in any case, and sets that do not, by reference. */
  readonly must?: readonly string[];
  readonly mustNot?: readonly string[];
  readonly seed?: number;
  /** Rounds of search and nodes of proof; absent = by the size of the problem. */
  readonly rounds?: number;
  readonly nodes?: number;
}

/** The question behind a problem, made small; the weight of all knees, and the weight that is asked for. */
export function questionOf(
  problem: KitProblem,
  { must = [], mustNot = [] }: KitWanted,
  sharePct: number,
): { readonly reduced: Reduced; readonly total: number; readonly asked: number } {
  const total = problem.groups.reduce((sum, g) => sum + g.weight, 0);
  const come = maskOfRefs(problem, must);
  const late = problem.sets.reduce((mask, { late: is }, i) => (is ? union(mask, maskOf(i)) : mask), NO_SETS);
  const stay = without(union(maskOfRefs(problem, mustNot), late), come);
  const costs = problem.sets.map((s) => s.cost);
  const reduced = reduceCover({ costs, groups: problem.groups, must: come, mustNot: stay });
  return { reduced, total, asked: Math.ceil((total * sharePct) / 100 - 1e-9) };
}

export const refsOf = (problem: KitProblem, sets: SetMask): readonly string[] =>
  indicesOf(sets).map((i) => problem.sets[i]?.set.ref as string);

/** References that the list does not hold are left aside: what was decided may be older than the list. */
export const maskOfRefs = (problem: KitProblem, refs: readonly string[]): SetMask =>
  problem.sets.reduce((mask, { set }, i) => (refs.includes(set.ref) ? union(mask, maskOf(i)) : mask), NO_SETS);

/** Share of a weight; 1 where there is no weight at all. */
export const shareOf = (weight: number, total: number): number => (total > 0 ? weight / total : 1);
