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
  test('GAP-18 gives the construct and the cost of solve(), whatever was asked before', () => {
    const solver = openSolver({ catalogue, weights, settings });
    let solved = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const state = randomState(dice(seed));
      const one = solve({ state, catalogue, weights, settings });
      const many = solver.least(state);
      if (one.kind === 'infeasible') expect(many).toBeNull();
      else {
        solved++;
        expect(many?.construct).toEqual(one.answer.best.construct);
        expect(Math.abs((many?.cost ?? Number.NaN) - one.answer.best.cost)).toBeLessThan(1e-9);
      }
    }
    expect(solved).toBeGreaterThan(100);
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
