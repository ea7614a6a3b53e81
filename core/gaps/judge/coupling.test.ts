import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { openSolver } from '../many/open-solver.ts';
import { DEFAULT_SETTINGS, solve } from '../solve.ts';
import { trayCouplers } from './place.ts';
import { dice, randomCoupling, randomWeights } from './random-cases.ts';
import { tryEverything } from './try-everything.ts';

const CASES = 420;

describe('trying everything judges the choice of a coupler under the tray', () => {
  test(`GAP-31 GAP-32 the same least cost on ${CASES} random knees in which couplers are in play, or none for both`, {
    timeout: 600_000,
  }, () => {
    const whole = demoCatalogue();
    const met = { inPlay: 0, coupled: 0, straight: 0, none: 0, sleeves: 0 };
    const differ: string[] = [];
    for (let seed = 1; seed <= CASES; seed++) {
      const d = dice(seed);
      const { state, catalogue } = randomCoupling(d, whole);
      const weights = randomWeights(d, DEFAULT_WEIGHTS);
      const { leastPolyethyleneMm } = DEFAULT_SETTINGS;
      const trial = { state, catalogue, weights, leastPolyethyleneMm };
      const verdict = tryEverything(trial);
      const least = openSolver({ catalogue, weights }).least(state);
      const same = least && verdict ? Math.abs(least.cost - verdict.cost) < 1e-9 : !least && !verdict;
      if (!same) differ.push(`${seed}: solver ${least?.cost ?? null}, judge ${verdict?.cost ?? null}`);
      const answer = solve({ state, catalogue, weights, settings: { leastPolyethyleneMm, alternatives: 0 } });
      const told = answer.kind === 'solved' ? answer.answer.best.cost : null;
      if (least && !(told !== null && Math.abs(told - least.cost) < 1e-9)) differ.push(`${seed}: ledger ${told}`);
      if (!catalogue.trays.some((t) => trayCouplers(trial, t.size).length > 0)) continue;
      met.inPlay++;
      if (!verdict) met.none++;
      else if (verdict.trayCoupler) met.coupled++;
      else met.straight++;
      if (verdict?.tibial.metaphysis === 'sleeve') met.sleeves++;
    }
    expect(differ).toEqual([]);
    expect(met.inPlay).toBeGreaterThan(300);
    expect(met.coupled).toBeGreaterThan(80);
    expect(met.straight).toBeGreaterThan(40);
    expect(met.none).toBeGreaterThan(2);
    expect(met.sleeves).toBeGreaterThan(5);
  });
});
