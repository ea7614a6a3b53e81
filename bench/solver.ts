import { demoCatalogue } from '../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../core/gaps/default-weights.ts';
import { dice, randomState } from '../core/gaps/judge/random-cases.ts';
import { DEFAULT_SETTINGS, solve } from '../core/gaps/solve.ts';
import type { Bench } from './bench-types.ts';
import { median } from './timing/median.ts';
import { tryEverythingEach } from './timing/try-everything-each.ts';

const STATES = 200;

const timed = (run: () => void): number => {
  const start = performance.now();
  run();
  return performance.now() - start;
};

/**
 * The solver on the whole example catalogue against trying everything, reckoned by its time a combination on small
 * catalogues times the number of combinations.
 */
function compare(alternatives: number) {
  const weights = DEFAULT_WEIGHTS;
  const catalogue = demoCatalogue();
  const settings = { ...DEFAULT_SETTINGS, alternatives };
  const states = Array.from({ length: STATES }, (_, i) => randomState(dice(i + 1))).filter(
    (state) => solve({ state, catalogue, weights, settings }).kind === 'solved',
  );
  const times = states.map((state) => timed(() => solve({ state, catalogue, weights, settings })));
  const answer = states[0] && solve({ state: states[0], catalogue, weights, settings });
  const combinations = answer?.kind === 'solved' ? answer.answer.combinations : Number.NaN;
  const { eachMs, tried } = tryEverythingEach(catalogue, timed);
  const theirs = eachMs * combinations;
  const ours = median(times);
  const worst = Math.max(...times);
  return {
    ours,
    theirs,
    unit: 'ms',
    ratio: ours / theirs,
    note: `median of ${times.length} states, slowest ${worst.toFixed(1)} ms; trying everything is reckoned: ${(
      1000 * eachMs
    ).toFixed(
      1,
    )} µs for each of ${combinations.toLocaleString('en')} combinations, measured on ${tried.toLocaleString('en')}`,
  };
}

export const benches: readonly Bench[] = [
  {
    name: 'construct solver, one bone state, whole catalogue',
    target: 'under 1 ms, and 500 times faster than trying everything (ratio <= 0.002)',
    run: async () => compare(0),
  },
  {
    name: 'the same with the four next best that differ in kind',
    target: 'well under a frame (16 ms)',
    run: async () => compare(DEFAULT_SETTINGS.alternatives),
  },
];
