import type { Catalogue } from '../../core/catalogue/catalogue.ts';
import { DEFAULT_WEIGHTS } from '../../core/gaps/default-weights.ts';
import { dice, randomState, someParts } from '../../core/gaps/judge/random-cases.ts';
import { tryEverything } from '../../core/gaps/judge/try-everything.ts';
import { DEFAULT_SETTINGS } from '../../core/gaps/solve.ts';

const TRIALS = 12;

/**
 * What trying everything takes for each combination, ms by the clock given, and how many it was measured on. Everything
 * of a whole catalogue would take hours, so it is measured on small parts of it, one random knee each.
 */
export function tryEverythingEach(catalogue: Catalogue, timed: (run: () => void) => number) {
  let spent = 0;
  let tried = 0;
  for (let seed = 1; seed <= TRIALS; seed++) {
    const d = dice(seed);
    const state = randomState(d);
    const parts = someParts(catalogue, d);
    const { leastPolyethyleneMm } = DEFAULT_SETTINGS;
    spent += timed(() => {
      tried += tryEverything({ state, catalogue: parts, weights: DEFAULT_WEIGHTS, leastPolyethyleneMm })?.tried ?? 0;
    });
  }
  return { eachMs: spent / tried, tried };
}
