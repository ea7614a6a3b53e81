import { costOf, coveredBy } from './cover/choose-rooms.ts';
import type { KitRoom, KitWorth } from './kit-answer.ts';
import type { KitProblem } from './kit-problem.ts';
import { maskOfRefs, refsOf, shareOf } from './kit-question.ts';
import { holds, maskOf, union, without } from './set-mask.ts';
import { uncoveredIn } from './uncovered.ts';

/**
 * What a room does that somebody decided on: its cost, the share that it covers, what each set is worth in it, brought
 * or left, and what is left uncovered. References that the list does not hold are left aside.
 */
export function kitRoom(problem: KitProblem, bring: readonly string[]): KitRoom {
  const room = maskOfRefs(problem, bring);
  const total = problem.groups.reduce((sum, g) => sum + g.weight, 0);
  const covered = coveredBy(problem.groups, room);
  const sets = problem.sets.map(({ set, cost, orderBy, late }, i): KitWorth => {
    const brought = holds(room, i);
    const other = coveredBy(problem.groups, brought ? without(room, maskOf(i)) : union(room, maskOf(i)));
    return {
      ref: set.ref,
      name: set.name,
      brought,
      owner: set.owner,
      trays: set.trays,
      cost,
      adds: shareOf(Math.abs(other - covered), total),
      leadDays: set.leadDays,
      orderBy,
      late,
      failShare: set.failShare ?? null,
    };
  });
  const costs = problem.sets.map((s) => s.cost);
  return {
    bring: refsOf(problem, room),
    cost: costOf(costs, room),
    share: shareOf(covered, total),
    sets,
    uncovered: uncoveredIn(problem, room),
  };
}
