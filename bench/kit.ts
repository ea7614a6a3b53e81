import loadHighs from 'highs';
import { type ChosenRoom, chooseRooms } from '../core/kit/cover/choose-rooms.ts';
import type { CoverGroup } from '../core/kit/cover/cover.ts';
import { reduceCover } from '../core/kit/cover/reduce.ts';
import { kitProgramme } from '../core/kit/judge/programme.ts';
import { type ChoiceSize, randomChoice } from '../core/kit/judge/random-choices.ts';
import { NO_SETS } from '../core/kit/set-mask.ts';
import type { Bench, BenchResult } from './bench-types.ts';

const SHARE = 0.99;
const HIGHS_SECONDS = 60;
const PROOF_SECONDS = 30;

/** Processor time of this process, ms: other work on the machine does not count. */
const spentMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

interface Asked {
  readonly costs: readonly number[];
  readonly groups: readonly CoverGroup[];
  readonly need: number;
}

/** Options without any structure: the hardest kind; knees of one patient are far easier. */
function asked(seed: number, size: ChoiceSize): Asked {
  const { costs, groups } = randomChoice(seed, size);
  const total = groups.reduce((sum, g) => sum + g.weight, 0);
  return { costs, groups, need: Math.ceil(SHARE * total) };
}

interface Ours {
  /** When each better room came, ms of processor time, with its cost. */
  readonly better: readonly { readonly ms: number; readonly cost: number }[];
  readonly last: ChosenRoom;
  readonly ms: number;
}

/** Our choice, from the groups to the proof, or as far as the time goes. */
function ours({ costs, groups, need }: Asked, seconds = PROOF_SECONDS): Ours {
  const start = spentMs();
  const better: { ms: number; cost: number }[] = [];
  const reduced = reduceCover({ costs, groups, must: NO_SETS, mustNot: NO_SETS });
  const rooms = chooseRooms(reduced, need, { seed: 1 });
  let last: ChosenRoom | null = null;
  for (;;) {
    const step = rooms.next();
    last = step.done ? step.value : step.value.room;
    const ms = spentMs() - start;
    if (last.cost < (better.at(-1)?.cost ?? Number.POSITIVE_INFINITY)) better.push({ ms, cost: last.cost });
    if (step.done || ms > 1000 * seconds) return { better, last, ms };
  }
}

async function highs(problem: Asked): Promise<{ ms: number; cost: number; status: string }> {
  // The package's types are those of a CommonJS module, which it is not when imported.
  const solver = await (loadHighs as unknown as typeof loadHighs.default)();
  const text = kitProgramme(problem);
  const start = spentMs();
  const options = { output_flag: false, time_limit: HIGHS_SECONDS, mip_rel_gap: 0, random_seed: 1 };
  const { Status, ObjectiveValue } = solver.solve(text, options);
  return { ms: spentMs() - start, cost: ObjectiveValue, status: Status };
}

const seconds = (ms: number): string => `${(ms / 1000).toFixed(ms < 10_000 ? 2 : 1)} s`;

const proofOf = ({ last, ms }: Ours): string =>
  last.proven
    ? `proven after ${seconds(ms)}`
    : `after ${seconds(ms)} proven to cost at least ${last.leastCost.toFixed(0)} (gap ${((100 * (last.cost - last.leastCost)) / last.cost).toFixed(0)} %)`;

/** When we have a room as good as HiGHS ends with, against all the time that HiGHS took for it. */
async function sameObjective(size: ChoiceSize): Promise<BenchResult> {
  const problem = asked(1, size);
  const mine = ours(problem);
  const theirs = await highs(problem);
  const cost = Number.isFinite(theirs.cost) && theirs.cost > 0 ? theirs.cost : Number.POSITIVE_INFINITY;
  const at = mine.better.find((b) => b.cost <= cost + 1e-6)?.ms ?? Number.NaN;
  return {
    ours: at / 1000,
    theirs: theirs.ms / 1000,
    unit: 's',
    ratio: at / theirs.ms,
    note: `HiGHS: ${theirs.status}, cost ${theirs.cost}; ours: cost ${mine.last.cost} after ${seconds(mine.better.at(-1)?.ms ?? 0)}, ${proofOf(mine)}`,
  };
}

/** Time to proof where both prove. */
async function toProof(size: ChoiceSize, trials: number): Promise<BenchResult> {
  let [mine, theirs] = [0, 0];
  for (let seed = 1; seed <= trials; seed++) {
    const problem = asked(seed, size);
    const a = ours(problem);
    const b = await highs(problem);
    if (!a.last.proven || b.status !== 'Optimal' || Math.abs(a.last.cost - b.cost) > 1e-6)
      throw new Error(`Seed ${seed}: ours ${a.last.cost} (${a.last.proven}), HiGHS ${b.cost} (${b.status}).`);
    mine += a.ms;
    theirs += b.ms;
  }
  return {
    ours: mine / trials,
    theirs: theirs / trials,
    unit: 'ms',
    ratio: mine / theirs,
    note: `mean of ${trials} random choices, the same least cost each time`,
  };
}

/** How the time to a proof grows, against that of the first size. */
async function growth(sizes: readonly ChoiceSize[]): Promise<BenchResult> {
  const times = sizes.map((size) => ({ size, mine: ours(asked(1, size)) }));
  const rows = times.map(
    ({ size, mine }) =>
      `${size.sets} sets, ${size.groups} knees: best room after ${seconds(mine.better.at(-1)?.ms ?? 0)}, ${proofOf(mine)}`,
  );
  const [first, last] = [times[0]?.mine.ms ?? Number.NaN, times.at(-1)?.mine.ms ?? Number.NaN];
  return { ours: last / 1000, theirs: first / 1000, unit: 's', ratio: last / first, note: rows.join('\n  ') };
}

export const benches: readonly Bench[] = [
  {
    name: 'kit choice, 40 sets and 5,000 knees, to the cost at which HiGHS ends',
    target: 'the answer under 2 s, and 20 times faster than HiGHS alone (ratio <= 0.05)',
    run: () => sameObjective({ sets: 40, groups: 5000, options: 5, leastOptions: 5, most: 4 }),
  },
  {
    name: 'the same with 20 options a knee',
    target: 'the answer under 2 s, and 20 times faster than HiGHS alone (ratio <= 0.05)',
    run: () => sameObjective({ sets: 40, groups: 5000, options: 20, leastOptions: 20, most: 4 }),
  },
  {
    name: 'kit choice with proof, 14 sets and 60 knees, against HiGHS',
    target: '20 times faster (ratio <= 0.05)',
    run: () => toProof({ sets: 14, groups: 60, options: 5, leastOptions: 5, most: 4 }, 10),
  },
  {
    name: 'kit choice with proof: how time grows with knees (alternative: the smallest)',
    target: 'no more than in proportion to the knees',
    run: () =>
      growth([625, 1250, 2500, 5000].map((groups) => ({ sets: 30, groups, options: 5, leastOptions: 5, most: 4 }))),
  },
  {
    name: 'kit choice with proof: how time grows with sets (alternative: the smallest)',
    target: 'proof or remaining gap within 30 s at 40 sets',
    run: () =>
      growth([20, 25, 30, 35, 40].map((sets) => ({ sets, groups: 2000, options: 5, leastOptions: 5, most: 4 }))),
  },
];
