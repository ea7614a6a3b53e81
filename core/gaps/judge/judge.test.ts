import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { DEFAULT_SETTINGS, solve } from '../solve.ts';
import { dice, randomState, someParts } from './random-cases.ts';
import { tryEverything } from './try-everything.ts';

const CASES = 240;
const whole = demoCatalogue();

describe('trying everything judges the solver', () => {
  test('the judge shares no code with the solver: outside its own folder it imports types only', () => {
    const judge = ['try-everything', 'trial', 'bodies', 'corners', 'holding', 'profile'];
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
    timeout: 300_000,
  }, () => {
    const tally = { solved: 0, infeasible: 0, tried: 0 };
    for (let seed = 1; seed <= CASES; seed++) {
      const d = dice(seed);
      const state = randomState(d);
      const catalogue = someParts(whole, d);
      const { leastPolyethyleneMm } = DEFAULT_SETTINGS;
      const verdict = tryEverything({ state, catalogue, weights: DEFAULT_WEIGHTS, leastPolyethyleneMm });
      const answer = solve({ state, catalogue, weights: DEFAULT_WEIGHTS });
      expect(`${seed} ${answer.kind}`).toBe(`${seed} ${verdict ? 'solved' : 'infeasible'}`);
      if (answer.kind === 'solved' && verdict) {
        expect(Math.abs(answer.answer.best.cost - verdict.cost), `seed ${seed}`).toBeLessThan(1e-9);
        tally.solved++;
        tally.tried += verdict.tried;
      } else tally.infeasible++;
    }
    // Both kinds of answer were really put to the test.
    expect(tally.solved).toBeGreaterThan(CASES / 3);
    expect(tally.infeasible).toBeGreaterThan(5);
    expect(tally.tried).toBeGreaterThan(50_000);
  });
});
