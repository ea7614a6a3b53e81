import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { compareOnSeeds } from './every-kind.ts';

const CASES = 250;

describe('trying everything judges the solver with every kind of part in play', () => {
  test(`GAP-18 the same least cost, or none for both, on ${CASES} random knees, second half`, {
    timeout: 600_000,
  }, () => {
    const met = compareOnSeeds(
      demoCatalogue(),
      Array.from({ length: CASES }, (_, i) => 10_001 + i),
    );
    expect(met.differ).toEqual([]);
    // Every kind was really put to the test.
    expect(met.solved).toBeGreaterThan(CASES / 3);
    expect(met.none).toBeGreaterThan(20);
    expect(met.arc).toBeGreaterThan(40);
    expect(met.flexed).toBeGreaterThan(8);
    expect(met.sleeves).toBeGreaterThan(20);
    expect(met.distalFemur).toBeGreaterThan(20);
    expect(met.proximalTibia).toBeGreaterThan(10);
    expect(met.tried).toBeGreaterThan(50_000);
  });
});
