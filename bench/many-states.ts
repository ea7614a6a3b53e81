import { demoCatalogue } from '../catalogues/make-demo.ts';
import type { Catalogue } from '../core/catalogue/catalogue.ts';
import type { BoneState } from '../core/gaps/bone-state.ts';
import { DEFAULT_WEIGHTS } from '../core/gaps/default-weights.ts';
import { type Dice, dice, randomState } from '../core/gaps/judge/random-cases.ts';
import { openSolver } from '../core/gaps/many/open-solver.ts';
import { restrictCatalogue } from '../core/gaps/many/restrict.ts';
import { DEFAULT_SETTINGS, solve } from '../core/gaps/solve.ts';
import type { Bench, BenchResult } from './bench-types.ts';
import { bestOf } from './timing/best-of.ts';
import { tryEverythingEach } from './timing/try-everything-each.ts';

const STATES = 10_000;
const ONE_BY_ONE = 300;
const RUNS = 5;
const weights = DEFAULT_WEIGHTS;
const alone = { ...DEFAULT_SETTINGS, alternatives: 0 };

/** Milliseconds of one core, so that a busy machine does not count. */
const timed = (run: () => void): number => {
  const start = process.cpuUsage();
  run();
  return process.cpuUsage(start).user / 1000;
};

/** One draw of the normal distribution (Box and Muller 1958). */
const normal = (d: Dice): number => Math.sqrt(-2 * Math.log(1 - d.unit())) * Math.cos(2 * Math.PI * d.unit());

/** One state scattered about a mean, every length by the same spread in mm. */
function scattered(mean: BoneState, spreadMm: number, d: Dice): BoneState {
  const one = (mm: number) => mm + spreadMm * normal(d);
  const both = (p: BoneState['tibiaMm']) => ({ medial: one(p.medial), lateral: one(p.lateral) });
  return {
    ...mean,
    femurDistalMm: both(mean.femurDistalMm),
    femurPosteriorMm: both(mean.femurPosteriorMm),
    anteriorToPosteriorMm: one(mean.anteriorToPosteriorMm),
    femurWidthMm: one(mean.femurWidthMm),
    tibiaWidthMm: one(mean.tibiaWidthMm),
    tibiaMm: both(mean.tibiaMm),
    extensionLaxityMm: both(mean.extensionLaxityMm),
    flexionLaxityMm: both(mean.flexionLaxityMm),
  };
}

/** Clouds about several knees, spread 1, 2 and 3 mm. */
function clouds(catalogue: Catalogue, count: number): BoneState[] {
  const solver = openSolver({ catalogue, weights, settings: alone });
  const means = Array.from({ length: 40 }, (_, i) => randomState(dice(i + 1)))
    .filter((state) => solver.least(state))
    .slice(0, 5);
  const groups = means.flatMap((mean) => [1, 2, 3].map((spread) => ({ mean, spread })));
  const each = Math.ceil(count / groups.length);
  return groups.flatMap(({ mean, spread }, g) =>
    Array.from({ length: each }, (_, i) => scattered(mean, spread, dice(1 + 100_003 * g + i))),
  );
}

/** Milliseconds that a catalogue takes for all states, one after another, the solver opened once. */
function spentOn(states: readonly BoneState[], catalogue: Catalogue): number {
  const solver = openSolver({ catalogue, weights, settings: alone });
  return timed(() => {
    for (const state of states) solver.least(state);
  });
}

/** A room with every second size, about half of all parts. */
function halfOf(catalogue: Catalogue): Catalogue {
  const parts = [catalogue.femurs, catalogue.trays, catalogue.inserts].flat().filter((p) => p.size % 2 === 0);
  const rest = [catalogue.femoralAugments, catalogue.tibialAugments, catalogue.stems, catalogue.offsetCouplers].flat();
  const holds = [...(catalogue.cones ?? []), ...(catalogue.sleeves ?? [])];
  return restrictCatalogue(catalogue, new Set([...parts, ...rest, ...holds].map((p) => p.ref)));
}

async function scatteredStates(): Promise<BenchResult> {
  const catalogue = demoCatalogue();
  const states = clouds(catalogue, STATES);
  spentOn(states.slice(0, 1000), catalogue);
  const quickest = (of: readonly BoneState[], from: Catalogue) =>
    bestOf(
      RUNS,
      () => spentOn(of, from),
      (ms) => ms,
    );
  const { best: ours, slowestMs } = quickest(states, catalogue);
  const { best: quarter } = quickest(
    states.filter((_, i) => i % 4 === 0),
    catalogue,
  );
  const { best: half } = quickest(states, halfOf(catalogue));
  const few = states.filter((_, i) => i % Math.ceil(states.length / ONE_BY_ONE) === 0);
  const single = timed(() => {
    for (const state of few) solve({ state, catalogue, weights, settings: alone });
  });
  const [answer] = few
    .map((state) => solve({ state, catalogue, weights, settings: alone }))
    .filter((a) => a.kind === 'solved');
  const combinations = answer?.kind === 'solved' ? answer.answer.combinations : Number.NaN;
  const theirs = tryEverythingEach(catalogue, timed).eachMs * combinations * states.length;
  const micro = (ms: number, n: number) => `${((1000 * ms) / n).toFixed(0)} µs`;
  return {
    ours,
    theirs,
    unit: 'ms',
    ratio: ours / theirs,
    note: `${micro(ours, states.length)} a state, the quickest of ${RUNS} runs (slowest ${micro(slowestMs, states.length)}); a quarter of the states ${micro(quarter, states.length / 4)} each, every second size only ${micro(half, states.length)}; one by one through solve(), with its ledger and, where nothing fits, its reasons, ${micro(single, few.length)}; trying everything is reckoned for ${combinations.toLocaleString('en')} combinations`,
  };
}

async function wildStates(): Promise<BenchResult> {
  const catalogue = demoCatalogue();
  const states = Array.from({ length: 2000 }, (_, i) => randomState(dice(i + 1)));
  const solvable = states.filter((state) => openSolver({ catalogue, weights, settings: alone }).least(state));
  const ours = spentOn(solvable, catalogue);
  const theirs = timed(() => {
    for (const state of solvable) solve({ state, catalogue, weights, settings: alone });
  });
  const rooms = Array.from({ length: 20 }, () => halfOf(catalogue));
  const opening = timed(() => {
    for (const room of rooms) openSolver({ catalogue: room, weights });
  });
  return {
    ours,
    theirs,
    unit: 'ms',
    ratio: ours / theirs,
    note: `${((1000 * ours) / solvable.length).toFixed(0)} µs a state; opening a room takes ${(opening / rooms.length).toFixed(2)} ms`,
  };
}

export const benches: readonly Bench[] = [
  {
    name: `${STATES} bone states scattered about five knees, whole catalogue`,
    target: 'under 1000 ms on one core, and 500 times faster than trying everything (ratio <= 0.002)',
    run: scatteredStates,
  },
  {
    name: '2000 bone states without likeness, against one by one',
    target: 'no slower than solve() state by state (ratio <= 1)',
    run: wildStates,
  },
];
