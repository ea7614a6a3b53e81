import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { BoneState } from './bone-state.ts';
import type { SolvedConstruct } from './construct.ts';
import { DEFAULT_WEIGHTS } from './default-weights.ts';
import { easyKnee } from './easy-knee.ts';
import { dice, randomState } from './judge/random-cases.ts';
import { solve } from './solve.ts';

// Facts of the trade (common practice, no source) as check values for the construct that is given.

const catalogue = demoCatalogue();
const weights = DEFAULT_WEIGHTS;
const answers = (state: BoneState): readonly SolvedConstruct[] => {
  const result = solve({ state, catalogue, weights });
  return result.kind === 'solved' ? [result.answer.best, ...result.answer.alternatives] : [];
};
const found = Array.from({ length: 40 }, (_, i) => randomState(dice(300 + i))).flatMap(answers);
const some = (...pairs: readonly { medial: string | null; lateral: string | null }[]) =>
  pairs.some((p) => p.medial !== null || p.lateral !== null);
const best = (change: Partial<BoneState>) => {
  const [first] = answers({ ...easyKnee, ...change });
  if (!first) throw new Error('no construct');
  return first;
};
const both = (x: number) => ({ medial: x, lateral: x });

describe('facts of the trade', () => {
  test('STM-1 a metal augment always takes a stem with it, in either bone, in the best and in every alternative', () => {
    expect(found.length).toBeGreaterThan(60);
    const augmented = found.filter(({ construct: c }) => some(c.distalAugments, c.posteriorAugments));
    expect(augmented.length).toBeGreaterThan(20);
    for (const { construct } of augmented) expect(construct.femoralStem).not.toBeNull();
    const blocked = found.filter(({ construct: c }) => some(c.tibialAugments));
    expect(blocked.length).toBeGreaterThan(20);
    for (const { construct } of blocked) expect(construct.tibialStem).not.toBeNull();
  });

  test('STM-1 a cone or a sleeve takes a stem with it, and the two are never in one bone', () => {
    for (const { construct: c } of found) {
      if (c.femoralCone || c.femoralSleeve) expect(c.femoralStem).not.toBeNull();
      if (c.tibialCone || c.tibialSleeve) expect(c.tibialStem).not.toBeNull();
      expect(Boolean(c.femoralCone && c.femoralSleeve) || Boolean(c.tibialCone && c.tibialSleeve)).toBe(false);
    }
  });

  test('BONE-4 a posterior-stabilised box in weak bone wants a stem; in good bone it may go without', () => {
    expect(best({}).construct.femoralStem).toBeNull();
    for (const femurQuality of ['osteoporotic', 'sclerotic'] as const) {
      const { construct } = best({ femurQuality });
      expect([construct.level, construct.femoralStem !== null]).toEqual(['ps', true]);
    }
  });

  test('GAP-8 the tibia moves both gaps: both loose alike is answered by a higher bearing, the femur stays', () => {
    const { construct, effect } = best({ extensionLaxityMm: both(5), flexionLaxityMm: both(5) });
    expect(effect.bearingMm).toBeGreaterThan(1);
    expect(Math.abs(construct.femurProximalMm)).toBeLessThanOrEqual(2);
    expect(construct.femur).toBe('EX-F4R');
  });

  test('GAP-23 a line raised in both, balanced at 0 and 90, is brought down where mid-flexion would slacken', () => {
    // 9 mm lost everywhere: J = q = K = 9 would balance the ends and slacken the middle by 3.7 mm.
    const state = { femurDistalMm: both(18), femurPosteriorMm: both(18), femurClass: '2A' as const, tibiaMm: both(7) };
    const { construct, effect } = best({ ...state, extensionLaxityMm: both(2), flexionLaxityMm: both(2) });
    for (const { laxityMm } of effect.midFlexionMm ?? [])
      expect(Math.max(laxityMm.medial, laxityMm.lateral)).toBeLessThan(5);
    expect(construct.distalAugments.medial).not.toBeNull();
  });
});
