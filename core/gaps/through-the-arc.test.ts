import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { KneeInArc } from './arc.ts';
import { dice, randomState } from './judge/random-cases.ts';
import { arcPoints, midFlexionExcess } from './through-the-arc.ts';

const femur = demoCatalogue().femurs[0]!;
const both = (mm: number) => ({ medial: mm, lateral: mm });
const even = { ...randomState(dice(3)), extensionLaxityMm: both(0), flexionLaxityMm: both(0) };
const knee = (j: number, q: number, k: number): KneeInArc => ({
  state: even,
  construct: { femurProximalMm: j, femurAnteriorMm: q },
  femur,
  bearingMm: k,
  slopeOpeningMm: 0,
});

describe('through the arc of motion', () => {
  test('GAP-23 hand check: raised and forward by 5 mm on a bearing 5 mm high is slack by 2.07 mm at 45 degrees', () => {
    const found = midFlexionExcess(knee(5, 5, 5));
    expect(found).toMatchObject({ side: 'medial', flexionDeg: 45 });
    expect(found.excessMm).toBeCloseTo(5 * (Math.SQRT2 - 1), 9);
    expect(found.laxityMm).toBeCloseTo(5 * (Math.SQRT2 - 1), 9);
  });

  test('GAP-23 on target, or lowered and behind, nothing is slack between', () => {
    expect(midFlexionExcess(knee(0, 0, 0)).excessMm).toBe(0);
    expect(midFlexionExcess(knee(-5, -5, -5)).excessMm).toBe(0);
  });

  test('GAP-23 the higher the joint line, the more; a thicker insert changes the laxity, not the excess', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        (raised, more) => {
          const [low, high] = [midFlexionExcess(knee(raised, 0, 0)), midFlexionExcess(knee(raised + more, 0, 0))];
          expect(high.excessMm).toBeGreaterThan(low.excessMm);
          const thick = midFlexionExcess(knee(raised, 0, more));
          expect(thick.excessMm).toBeCloseTo(low.excessMm, 9);
          expect(thick.laxityMm).toBeCloseTo(low.laxityMm - more, 9);
        },
      ),
      { numRuns: 50 },
    );
  });

  test('GAP-13 the chart begins straight and ends at 120 degrees, both sides by themselves', () => {
    const uneven = { ...knee(3, 1, 2), state: { ...even, extensionLaxityMm: { medial: 1, lateral: 4 } } };
    const points = arcPoints(uneven, 5);
    expect([points[0]!.flexionDeg, points.at(-1)!.flexionDeg, points.length]).toEqual([0, 120, 25]);
    expect(points[0]!.laxityMm.lateral - points[0]!.laxityMm.medial).toBeCloseTo(3, 9);
    expect(points[18]!.laxityMm.lateral).toBeCloseTo(points[18]!.laxityMm.medial, 9);
  });
});
