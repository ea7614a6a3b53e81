import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { Construct } from './construct.ts';
import { plainConstruct } from './easy-knee.ts';
import { effectOf } from './effect.ts';
import { dice, randomState } from './judge/random-cases.ts';
import { distalLadder, insertLadder, withDistalAugments, withInsert } from './swap-part.ts';

const catalogue = demoCatalogue();
const construct: Construct = { ...plainConstruct, femurProximalMm: 2, femurAnteriorMm: 1 };
const state = randomState(dice(11));
const effect = (c: Construct) => effectOf(c, state, catalogue);

describe('one part tried in place of another', () => {
  test('GAP-4 GAP-5 a thicker insert closes extension and flexion alike, by its height', () => {
    const ladder = insertLadder(construct, catalogue);
    expect(ladder.length).toBeGreaterThan(2);
    expect(ladder.map((i) => i.size)).toEqual(ladder.map(() => ladder[0]!.size));
    const own = ladder.findIndex((i) => i.ref === construct.insert);
    const thicker = ladder[own + 1]!;
    const by = thicker.heightMm - ladder[own]!.heightMm;
    const [a, b] = [effect(construct), effect(withInsert(construct, thicker.ref))];
    expect(a.extensionLaxityMm.medial - b.extensionLaxityMm.medial).toBeCloseTo(by, 9);
    expect(a.flexionLaxityMm.lateral - b.flexionLaxityMm.lateral).toBeCloseTo(by, 9);
  });

  test('GAP-4 GAP-5 thicker distal augments close extension alone, and the cement under them stays', () => {
    const ladder = distalLadder(construct, catalogue);
    expect(ladder[0]).toEqual({
      byMm: 0,
      augments: { medial: null, lateral: null },
      thicknessMm: { medial: 0, lateral: 0 },
    });
    for (const step of ladder) {
      const tried = withDistalAugments(construct, step);
      const [a, b] = [effect(construct), effect(tried)];
      expect(a.extensionLaxityMm.medial - b.extensionLaxityMm.medial).toBeCloseTo(step.byMm, 9);
      expect(b.flexionLaxityMm).toEqual(a.flexionLaxityMm);
      expect(b.femurDistalSpaceMm.lateral).toBeCloseTo(a.femurDistalSpaceMm.lateral, 9);
    }
  });

  test('both sides change alike: unequal augments stay unequal by as much, and where one has none to match, there is no step', () => {
    const [, thin, thick] = distalLadder(construct, catalogue);
    const uneven: Construct = {
      ...construct,
      distalAugments: { medial: thin!.augments.medial, lateral: thick!.augments.lateral },
    };
    const ladder = distalLadder(uneven, catalogue);
    expect(ladder.some((s) => s.byMm === 0)).toBe(true);
    const gap = thick!.thicknessMm.lateral - thin!.thicknessMm.medial;
    for (const { thicknessMm } of ladder) expect(thicknessMm.lateral - thicknessMm.medial).toBeCloseTo(gap, 9);
    expect(ladder.length).toBeLessThan(distalLadder(construct, catalogue).length);
  });

  test('parts of another catalogue offer no step', () => {
    expect(insertLadder({ ...construct, insert: 'unknown' }, catalogue)).toEqual([]);
    expect(distalLadder({ ...construct, femur: 'unknown' }, catalogue)).toEqual([]);
  });
});
