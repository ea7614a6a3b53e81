import { plainConstruct } from '@gapline/core/gaps/easy-knee.ts';
import { dice, randomState } from '@gapline/core/gaps/judge/random-cases.ts';
import { distalLadder, withDistalAugments } from '@gapline/core/gaps/swap-part.ts';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../../catalogues/make-demo.ts';
import { arcRange } from './ArcChart.tsx';
import { costChanges, readArc } from './arc-reading.ts';

const catalogue = demoCatalogue();
const construct = { ...plainConstruct, femurProximalMm: 4 };
const asked = { state: randomState(dice(5)), catalogue, weights: undefined };

describe('the arc on the page', () => {
  test('the cost of a trial is the sum of its ledger, and the changes told add up to the difference', () => {
    const plan = readArc(construct, asked);
    const step = distalLadder(construct, catalogue)[1]!;
    const tried = readArc(withDistalAugments(construct, step), asked);
    expect(plan.cost).toBeCloseTo(
      plan.ledger.reduce((sum, l) => sum + l.cost, 0),
      9,
    );
    const told = costChanges(plan, tried).reduce((sum, c) => sum + c.by, 0);
    // Changes under 0.05 are not told.
    expect(Math.abs(told - (tried.cost - plan.cost))).toBeLessThan(0.05 * tried.ledger.length);
    expect(costChanges(plan, plan)).toEqual([]);
  });

  test('the chart holds every curve and band of both sides', () => {
    const { curve } = readArc(construct, asked);
    const [low, high] = arcRange([curve, null]);
    for (const p of curve.points)
      for (const side of ['medial', 'lateral'] as const)
        for (const mm of [p.laxityMm[side], ...p.band[side]]) {
          expect(mm).toBeGreaterThanOrEqual(low);
          expect(mm).toBeLessThanOrEqual(high);
        }
  });
});
