import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { DEFAULT_SETTINGS } from '../solve.ts';
import { kneeProgramme } from './milp.ts';
import { less, Programme, sum, times } from './programme.ts';
import { dice, randomSurprise, randomWeights, someOfEveryKind } from './random-cases.ts';
import type { Trial } from './trial.ts';
import { tryEverything } from './try-everything.ts';

const CASES = 60;
const whole = demoCatalogue();
// The package's types describe its CommonJS build; what is imported here is the loader itself.
const highs = await (loadHighs as unknown as typeof loadHighs.default)();
/** Both gaps closed and the tolerances tight, so that the optimum is one to a millionth; no time limit, so that it repeats. */
const EXACT = {
  output_flag: false,
  mip_rel_gap: 0,
  mip_abs_gap: 0,
  mip_feasibility_tolerance: 1e-9,
  primal_feasibility_tolerance: 1e-9,
  random_seed: 1,
};

/** The least cost that HiGHS (general-purpose, open source) finds, or null where nothing keeps the rows. */
function leastByHighs(programme: Programme): number | null {
  const { Status, ObjectiveValue } = highs.solve(programme.lp(), EXACT);
  if (Status === 'Infeasible') return null;
  if (Status !== 'Optimal') throw new Error(`HiGHS ended with ${Status}.`);
  return ObjectiveValue + programme.base;
}

function trialOf(seed: number): Trial {
  const d = dice(seed);
  const catalogue = someOfEveryKind(whole, d);
  const state = randomSurprise(d, catalogue);
  const weights = randomWeights(d, DEFAULT_WEIGHTS);
  return { state, catalogue, weights, leastPolyethyleneMm: DEFAULT_SETTINGS.leastPolyethyleneMm };
}

describe('a mixed-integer programme judges the judge', () => {
  test('the form of the programme: a knapsack by hand', () => {
    const p = new Programme();
    const [a, b, x] = [p.choice(), p.choice(), p.length(-2, 5)];
    p.atMost(sum(times(3, a), times(2, b)), 4);
    p.pay(-5, a);
    p.pay(-4, b);
    p.pay(2, p.excess(less(x, 1), less(-1, x)));
    p.pay(1, sum(10));
    expect(leastByHighs(p)).toBeCloseTo(5, 9);
    p.atMost(3, x);
    expect(leastByHighs(p)).toBeCloseTo(9, 9);
    p.atMost(6, x);
    expect(leastByHighs(p)).toBeNull();
  });

  test(`GAP-18 HiGHS finds the same least cost as trying everything on ${CASES} random knees, to a millionth`, {
    timeout: 600_000,
  }, () => {
    const met = { solved: 0, none: 0, arc: 0, segments: 0, sleeves: 0 };
    for (let seed = 5001; seed <= 5000 + CASES; seed++) {
      const trial = trialOf(seed);
      const verdict = tryEverything(trial);
      const cost = leastByHighs(kneeProgramme(trial));
      expect(`${seed} ${cost === null}`).toBe(`${seed} ${verdict === null}`);
      if (cost === null || verdict === null) {
        met.none++;
        continue;
      }
      expect(Math.abs(cost - verdict.cost), `seed ${seed}`).toBeLessThan(1e-6);
      met.solved++;
      if (verdict.arc > 1e-9) met.arc++;
      if (trial.catalogue.segments?.some((s) => s.ref === verdict.femur || s.ref === verdict.tray)) met.segments++;
      if (verdict.femoral.metaphysis === 'sleeve' || verdict.tibial.metaphysis === 'sleeve') met.sleeves++;
    }
    // Every kind was really put to the test.
    expect(met.solved).toBeGreaterThan(20);
    expect(met.none).toBeGreaterThan(5);
    expect(met.arc).toBeGreaterThan(5);
    expect(met.segments).toBeGreaterThan(3);
    expect(met.sleeves).toBeGreaterThan(2);
  });
});
