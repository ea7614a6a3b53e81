import { finish } from '../measure/steps.ts';
import { chooseRooms, costOf, coveredBy } from './cover/choose-rooms.ts';
import type { KitRoom, KitWithout } from './kit-answer.ts';
import type { KitProblem } from './kit-problem.ts';
import { maskOfRefs, questionOf, refsOf, SHARE_PCT, shareOf } from './kit-question.ts';
import { without } from './set-mask.ts';

/**
 * What remains of a room when one of its sets does not arrive, and the cheapest sets to bring besides so that the share
 * asked is reached again, or as much as can be (KIT-11). The rest of the room is taken to be there already.
 *
 * @param room the room decided on, or the answer. @param ref a set of it.
 * @param asked share to reach again, %; default 99.
 */
export function whatIfMissing(
  problem: KitProblem,
  room: Pick<KitRoom, 'bring'>,
  { ref, sharePct = SHARE_PCT }: { readonly ref: string; readonly sharePct?: number },
): KitWithout {
  const offer = problem.sets.find((s) => s.set.ref === ref);
  if (!offer) throw new Error(`The list has no set ${ref}.`);
  const left = room.bring.filter((other) => other !== ref);
  const { reduced, total, asked } = questionOf(problem, { must: left, mustNot: [ref] }, sharePct);
  const before = coveredBy(problem.groups, maskOfRefs(problem, room.bring));
  const remains = coveredBy(problem.groups, maskOfRefs(problem, left));
  const most = reduced.always + reduced.cover.total;
  const wanted = Math.min(most, Math.max(asked, 0));
  const replacement = (() => {
    if (remains >= wanted) return null;
    const room = finish(chooseRooms(reduced, wanted, { seed: 1, rounds: 60, nodes: 20_000 }));
    const extra = without(room.sets, maskOfRefs(problem, left));
    return {
      bring: refsOf(problem, extra),
      extraCost: costOf(
        problem.sets.map((s) => s.cost),
        extra,
      ),
      share: shareOf(room.covered, total),
      reached: most >= asked,
    };
  })();
  const share = shareOf(remains, total);
  return {
    ref,
    name: offer.set.name,
    failShare: offer.set.failShare ?? null,
    share,
    replacement,
    words: inWords(problem, { name: offer.set.name, share, lost: shareOf(before - remains, total), replacement }),
  };
}

function inWords(
  problem: KitProblem,
  of: { name: string; share: number; lost: number; replacement: KitWithout['replacement'] },
): string {
  const pct = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const what = `Without ${of.name} ${pct(of.share)} have an answer (${pct(of.lost)} fewer)`;
  if (!of.replacement) return `${what}; nothing else is needed or would help.`;
  const names = of.replacement.bring
    .map((ref) => problem.sets.find((s) => s.set.ref === ref)?.set.name ?? ref)
    .join(' and ');
  const most = of.replacement.reached ? '' : ', the most that can be reached';
  return `${what}; ${names} instead brings it to ${pct(of.replacement.share)}${most}.`;
}
