import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { openSolver } from '../many/open-solver.ts';
import { DEFAULT_SETTINGS, solve } from '../solve.ts';
import { dice, randomState, someParts } from './random-cases.ts';
import { tryEverything } from './try-everything.ts';

const CASES = 160;
const ALONE = { ...DEFAULT_SETTINGS, alternatives: 0 };
const whole = demoCatalogue();

describe('trying everything judges the solver', () => {
  test('the judge shares no code with the solver: outside its own folder it imports types only', () => {
    const judge = [
      'try-everything',
      'trial',
      'faces',
      'femoral-bodies',
      'tibial-bodies',
      'corners',
      'planes',
      'holding',
      'place',
      'by-hand',
      'profile',
    ];
    const imports = judge.flatMap((name) => {
      const text = readFileSync(new URL(`./${name}.ts`, import.meta.url), 'utf8');
      return text.match(/^(import|export) .* from .*$|^} from .*$/gm) ?? [];
    });
    expect(imports.length).toBeGreaterThan(judge.length);
    const own = judge.map((name) => `from './${name}.ts'`);
    const foreign = imports.filter((line) => !own.some((from) => line.includes(from)));
    expect(foreign.filter((line) => !line.startsWith('import type'))).toEqual([]);
  });

  test(`GAP-18 the same least cost on ${CASES} random knees and catalogues, or none for both`, {
    timeout: 600_000,
  }, () => {
    const tally = { solved: 0, infeasible: 0, tried: 0 };
    for (let seed = 1; seed <= CASES; seed++) {
      const d = dice(seed);
      const state = randomState(d);
      const catalogue = someParts(whole, d);
      const { leastPolyethyleneMm } = DEFAULT_SETTINGS;
      const verdict = tryEverything({ state, catalogue, weights: DEFAULT_WEIGHTS, leastPolyethyleneMm });
      const least = openSolver({ catalogue, weights: DEFAULT_WEIGHTS }).least(state);
      expect(`${seed} ${least !== null}`).toBe(`${seed} ${verdict !== null}`);
      if (!least || !verdict) {
        tally.infeasible++;
        continue;
      }
      expect(Math.abs(least.cost - verdict.cost), `seed ${seed}`).toBeLessThan(1e-9);
      // The whole answer, with its ledger, says the same.
      const answer = solve({ state, catalogue, weights: DEFAULT_WEIGHTS, settings: ALONE });
      expect(answer.kind === 'solved' && Math.abs(answer.answer.best.cost - verdict.cost) < 1e-9, `seed ${seed}`).toBe(
        true,
      );
      tally.solved++;
      tally.tried += verdict.tried;
    }
    // Both kinds of answer were really put to the test.
    expect(tally.solved).toBeGreaterThan(CASES / 3);
    expect(tally.infeasible).toBeGreaterThan(5);
    expect(tally.tried).toBeGreaterThan(30_000);
  });
});
