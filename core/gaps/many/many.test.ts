import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { dice, randomState } from '../judge/random-cases.ts';
import { solve } from '../solve.ts';
import { openSolver } from './open-solver.ts';
import { restrictCatalogue } from './restrict.ts';

const catalogue = demoCatalogue();
const weights = DEFAULT_WEIGHTS;
const settings = { leastPolyethyleneMm: 6, alternatives: 0 };

describe('one open solver for many bone states', () => {
  test('GAP-18 gives the construct and the cost of solve(), whatever was asked before', { timeout: 120_000 }, () => {
    const solver = openSolver({ catalogue, weights, settings });
    let solved = 0;
    for (let seed = 1; seed <= 600; seed++) {
      const state = randomState(dice(seed));
      const many = solver.least(state);
      const one = solve({ state, catalogue, weights, settings });
      expect(`${seed} ${one.kind}`).toBe(`${seed} ${many ? 'solved' : 'infeasible'}`);
      if (!many || one.kind !== 'solved') continue;
      solved++;
      expect(many.construct).toEqual(one.answer.best.construct);
      expect(Math.abs(many.cost - one.answer.best.cost)).toBeLessThan(1e-9);
    }
    expect(solved).toBeGreaterThan(500);
  });

  test('GAP-18 gives in a cloud of like knees what a solver gives that was opened for each alone', () => {
    const solver = openSolver({ catalogue, weights, settings });
    let solved = 0;
    for (let seed = 1; seed <= 1400; seed++) {
      const d = dice(seed);
      const mean = randomState(dice(1 + Math.floor(seed / 200)));
      const off = (mm: number) => mm + d.between(-2, 2);
      const state = {
        ...mean,
        femurDistalMm: { medial: off(mean.femurDistalMm.medial), lateral: off(mean.femurDistalMm.lateral) },
        tibiaMm: { medial: off(mean.tibiaMm.medial), lateral: off(mean.tibiaMm.lateral) },
        anteriorToPosteriorMm: off(mean.anteriorToPosteriorMm),
        flexionLaxityMm: { medial: off(mean.flexionLaxityMm.medial), lateral: off(mean.flexionLaxityMm.lateral) },
      };
      const many = solver.least(state);
      expect(many).toEqual(openSolver({ catalogue, weights, settings }).least(state));
      if (many) solved++;
    }
    expect(solved).toBeGreaterThan(700);
  });

  test('within a ceiling: the least at or below it, nothing above', () => {
    const solver = openSolver({ catalogue, weights, settings });
    for (let seed = 1; seed <= 60; seed++) {
      const state = randomState(dice(seed));
      const least = solver.least(state);
      if (!least) expect(solver.leastWithin(state, 1e6)).toBeNull();
      else {
        expect(solver.leastWithin(state, least.cost)).toEqual(least);
        expect(solver.leastWithin(state, least.cost + 5)).toEqual(least);
        expect(solver.leastWithin(state, least.cost - 1e-6)).toBeNull();
      }
    }
  });

  test('where a cost is enough: any construct up to it, the least above it, nothing above the ceiling', () => {
    const solver = openSolver({ catalogue, weights, settings });
    // One that was never asked for the least of these knees.
    const asked = openSolver({ catalogue, weights, settings });
    let sooner = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const state = randomState(dice(seed));
      const least = solver.least(state);
      if (!least) {
        expect(solver.leastWithin(state, 1e6, 1e6)).toBeNull();
        continue;
      }
      const any = asked.leastWithin(state, least.cost + 5, least.cost + 3);
      expect(any?.cost).toBeGreaterThanOrEqual(least.cost - 1e-9);
      expect(any?.cost).toBeLessThanOrEqual(least.cost + 3 + 1e-9);
      if (any && any.cost > least.cost + 1e-6) sooner++;
      // Nothing is that cheap: then it is the least, and none below the ceiling where that is lower still.
      expect(solver.leastWithin(state, least.cost + 5, least.cost - 1)).toEqual(least);
      expect(solver.leastWithin(state, least.cost - 0.5, least.cost - 1)).toBeNull();
    }
    expect(sooner).toBeGreaterThan(10);
  });
});

describe('what is in the room', () => {
  test('every list of parts holds only what is there, in the old order', () => {
    const there = new Set(['EX-F4R', 'EX-T4', 'EX-I4P11', 'EX-SP14-75', 'EX-CTM', 'nowhere']);
    const room = restrictCatalogue(catalogue, there);
    const refs = Object.values(room)
      .flatMap((list) => (Array.isArray(list) ? list : []))
      .map((part: { ref: string }) => part.ref);
    expect(refs.sort()).toEqual(['EX-CTM', 'EX-F4R', 'EX-I4P11', 'EX-SP14-75', 'EX-T4']);
    expect(room.compatibility).toBe(catalogue.compatibility);
  });
});
