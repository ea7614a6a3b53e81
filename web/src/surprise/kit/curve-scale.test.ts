import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { curveScale } from './curve-scale.ts';

const box = { left: 50, right: 600, top: 10, bottom: 240 };
const curves = fc.array(
  fc.record({ share: fc.double({ min: 0, max: 1, noNaN: true }), cost: fc.double({ min: 0, max: 1e6, noNaN: true }) }),
  { minLength: 1, maxLength: 30 },
);

describe('scale of cost against coverage', () => {
  test('every point of the curve lies within the box, more coverage farther right, more cost higher up', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const { x, y } = curveScale(curve, box);
        for (const s of curve) {
          expect(x(s.share)).toBeGreaterThanOrEqual(box.left);
          expect(x(s.share)).toBeLessThanOrEqual(box.right + 1e-9);
          expect(y(s.cost)).toBeGreaterThanOrEqual(box.top);
          expect(y(s.cost)).toBeLessThanOrEqual(box.bottom);
        }
        const byShare = curve.toSorted((a, b) => a.share - b.share);
        for (const [i, s] of byShare.entries())
          if (i > 0) expect(x(s.share)).toBeGreaterThanOrEqual(x(byShare[i - 1]!.share));
      }),
    );
  });

  test('the last per cent gets more room than the ones before it', () => {
    const { x } = curveScale([{ share: 0.5, cost: 1 }], box);
    expect(x(1) - x(0.99)).toBeGreaterThan(x(0.99) - x(0.98));
    expect(x(1)).toBeCloseTo(box.right);
  });

  test('words of the ticks do not touch, and costs are round', () => {
    fc.assert(
      fc.property(curves, (curve) => {
        const { x, shareTicks, costTicks } = curveScale(curve, box);
        for (const [i, t] of shareTicks.entries())
          if (i > 0) expect(x(t) - x(shareTicks[i - 1]!)).toBeGreaterThanOrEqual(46);
        expect(costTicks.length).toBeLessThanOrEqual(6);
      }),
    );
    expect(curveScale([{ share: 1, cost: 3100 }], box).costTicks).toEqual([0, 1000, 2000, 3000]);
  });
});
