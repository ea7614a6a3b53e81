import { demoCatalogue } from '../catalogues/make-demo.ts';
import { drawKnees } from '../core/forecast/draw-knees.ts';
import { forecasting } from '../core/forecast/forecast.ts';
import { EXAMPLE_STATE, uncertainExample } from '../core/forecast/judge/example-knee.ts';
import { DEFAULT_WEIGHTS } from '../core/gaps/default-weights.ts';
import { DEFAULT_SETTINGS, solve } from '../core/gaps/solve.ts';
import type { Bench } from './bench-types.ts';
import { bestOf } from './timing/best-of.ts';

const STATES = 2000;
/** States that are solved one by one; the rest is reckoned from them. */
const ONE_BY_ONE = 200;
const RUNS = 5;

const timed = <T>(run: () => T): readonly [ms: number, value: T] => {
  const start = performance.now();
  const value = run();
  return [performance.now() - start, value];
};

/** The whole forecast, part by part: draws, every knee's construct, bail-outs. */
function runForecast(states: number) {
  const [drawing, knees] = timed(() => drawKnees(uncertainExample(), { draws: states, seed: 1 }));
  const steps = forecasting({
    knees,
    expected: EXAMPLE_STATE,
    catalogue: demoCatalogue(),
    weights: DEFAULT_WEIGHTS,
    seed: 1,
  });
  const start = performance.now();
  let solved = start;
  for (let step = steps.next(); !step.done; step = steps.next())
    if (step.value.part === 'knees') solved = performance.now();
  const end = performance.now();
  return { knees, drawing, solving: solved - start, bailOuts: end - solved, whole: drawing + end - start };
}

async function againstOneByOne() {
  runForecast(STATES / 4);
  const quickest = (states: number) =>
    bestOf(
      RUNS,
      () => runForecast(states),
      (run) => run.whole,
    );
  const { best: ours, slowestMs } = quickest(STATES);
  const { best: half } = quickest(STATES / 2);
  const catalogue = demoCatalogue();
  const settings = { ...DEFAULT_SETTINGS, alternatives: 0 };
  const [theirs] = timed(() => {
    for (const { state } of ours.knees.slice(0, ONE_BY_ONE))
      solve({ state, catalogue, weights: DEFAULT_WEIGHTS, settings });
  });
  const oneByOne = (theirs / ONE_BY_ONE) * STATES;
  const part = (ms: number): string => `${ms.toFixed(0)} ms`;
  return {
    ours: ours.whole,
    theirs: oneByOne,
    unit: 'ms',
    ratio: ours.whole / oneByOne,
    note: `${STATES.toLocaleString('en')} states: draws ${part(ours.drawing)}, constructs ${part(ours.solving)}, bail-outs ${part(
      ours.bailOuts,
    )}; the quickest of ${RUNS} runs, the slowest took ${part(slowestMs)}; half as many states take ${part(half.whole)}; one by one is reckoned from ${ONE_BY_ONE} states and leaves bail-outs out`,
  };
}

export const benches: readonly Bench[] = [
  {
    name: 'forecast of 2,000 states with its tree of bail-outs, against solving the states one by one',
    target: 'under 1,000 ms',
    run: againstOneByOne,
  },
];
