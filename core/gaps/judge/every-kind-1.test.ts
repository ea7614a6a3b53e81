import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { compareOnSeeds, hardlyMet } from './every-kind.ts';

const CASES = 250;

describe('trying everything judges the solver with every kind of part in play', () => {
  test(`GAP-18 the same least cost, or none for both, on ${CASES} random knees, first half`, {
    timeout: 600_000,
  }, () => {
    const met = compareOnSeeds(
      demoCatalogue(),
      Array.from({ length: CASES }, (_, i) => 1 + i),
    );
    expect(met.differ).toEqual([]);
    expect(hardlyMet(met, CASES)).toEqual([]);
  });
});
