import type { Reason } from '../measure/outcome.ts';
import { retold } from '../measure/steps.ts';
import { type ChosenRoom, chooseRooms, type Effort } from './cover/choose-rooms.ts';
import { betterRoom, SAME_COST } from './cover/local-search.ts';
import type { KitAnswer, KitProgress, KitStep } from './kit-answer.ts';
import { kitCurve } from './kit-curve.ts';
import type { KitProblem } from './kit-problem.ts';
import { type KitWanted, questionOf, refsOf, SHARE_PCT, shareOf } from './kit-question.ts';
import { kitRoom } from './kit-room.ts';

/** Search and proof of one step of the curve are short: its steps are marked where they are not proven. */
const CURVE_EFFORT = { rounds: 40, nodes: 4000 };

/**
 * The cheapest sets that cover at least the share that is asked, and the most at that cost (KIT-5, KIT-6), with proof or
 * the least cost that is proven; the whole curve; what each set is worth; what is left uncovered. Sets whose order-by
 * day has passed do not come unless they must. Where no room reaches the share, the cheapest of those that cover
 * most, and the reason.
 *
 * Anytime: each step yielded holds a room that may be used. Equal input gives the equal answer; of rooms that
 * cost and cover the same, the one that the seeded search meets first.
 */
export function* chooseKit(problem: KitProblem, wanted: KitWanted = {}): Generator<KitProgress, KitAnswer> {
  const { sharePct = SHARE_PCT, seed = 1, rounds, nodes } = wanted;
  const effort: Effort = {
    seed,
    ...(rounds === undefined ? {} : { rounds }),
    ...(nodes === undefined ? {} : { nodes }),
  };
  const { reduced, total, asked } = questionOf(problem, wanted, sharePct);
  const most = reduced.always + reduced.cover.total;
  const need = Math.min(asked, most);
  const told = (phase: KitProgress['phase'], room: ChosenRoom, done: number): KitProgress => ({
    phase,
    bring: refsOf(problem, room.sets),
    cost: room.cost,
    share: shareOf(room.covered, total),
    leastCost: room.leastCost,
    done,
  });
  const rooms = chooseRooms(reduced, need, effort);
  const found = yield* retold(rooms, ({ phase, room, done }) => told(phase, room, done));
  const curve = kitCurve(reduced, { ...CURVE_EFFORT, seed, total });
  const steps = yield* retold(curve, (done) => told('curve', found, done));
  // Where the proof was cut short, a step of the curve may have met a better room.
  let chosen = found;
  for (const step of steps)
    if (step.covered >= need && betterRoom(step, chosen)) chosen = { ...step, leastCost: chosen.leastCost };
  return {
    ...kitRoom(problem, refsOf(problem, chosen.sets)),
    asked: sharePct / 100,
    reached: most >= asked,
    proven: chosen.proven,
    leastCost: chosen.leastCost,
    curve: withChosen(steps, chosen).map((room) => stepOf(problem, room, total)),
    notes: [...problem.notes, ...(most >= asked ? [] : [notReached(problem, { asked, most, total })])],
  };
}

const stepOf = (problem: KitProblem, room: ChosenRoom, total: number): KitStep => ({
  bring: refsOf(problem, room.sets),
  cost: room.cost,
  share: shareOf(room.covered, total),
  proven: room.proven,
});

/** The room chosen stands on the curve, in place of any step that it makes needless. */
function withChosen(steps: readonly ChosenRoom[], chosen: ChosenRoom): readonly ChosenRoom[] {
  const others = steps.filter((s) => s.cost < chosen.cost - SAME_COST || s.covered > chosen.covered);
  return [...others, chosen].sort((a, b) => a.cost - b.cost || a.covered - b.covered);
}

function notReached(
  problem: KitProblem,
  { asked, most, total }: { asked: number; most: number; total: number },
): Reason {
  const pct = (weight: number) => `${((100 * weight) / total).toFixed(1)} %`;
  const late = problem.sets.some((s) => s.late) ? ' Some sets would come too late.' : '';
  return {
    code: 'KIT-5',
    message: `${pct(asked)} cannot be reached: all sets that may come cover ${pct(most)}.${late} This is the cheapest room that covers as much.`,
    field: 'kit.sharePct',
    mend: 'See what is left uncovered and its smallest addition, or ask for less.',
  };
}
