import { ZONES } from '@gapline/core/failure/lucent-lines.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LUCENT_DRAWINGS } from './lucent-zones.ts';
import { movedPoint, onOutline, type ScarPoint, thinned } from './scar-points.ts';
import { timeTicks, upperEnd } from './trend-scale.ts';

const anywhere = fc.tuple(fc.double({ min: -2, max: 3, noNaN: true }), fc.double({ min: -2, max: 3, noNaN: true }));

describe('What is drawn', () => {
  test('a point of a scar never leaves the outline, however it is drawn or moved', () => {
    const key = fc.constantFrom('ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown');
    fc.assert(
      fc.property(anywhere, key, fc.boolean(), fc.constantFrom('right', 'left'), (p, k, shift, side) => {
        const moved = movedPoint(onOutline(p as ScarPoint), { key: k, shift, side: side as 'right' | 'left' });
        for (const n of moved ?? [2]) expect(n >= 0 && n <= 1).toBe(true);
      }),
    );
  });

  test('the right arrow moves towards medial on a right knee and towards lateral on a left one', () => {
    const press = { key: 'ArrowRight', shift: false };
    expect(movedPoint([0.5, 0.5], { ...press, side: 'right' })).toEqual([0.48, 0.5]);
    expect(movedPoint([0.5, 0.5], { ...press, side: 'left' })).toEqual([0.52, 0.5]);
    expect(movedPoint([0.5, 0.5], { key: 'x', shift: false, side: 'left' })).toBe(null);
  });

  test('a thinned stroke keeps both its ends and no two neighbours closer than needed', () => {
    fc.assert(
      fc.property(fc.array(anywhere, { minLength: 2, maxLength: 60 }), (stroke) => {
        const points = thinned(stroke.map((p) => onOutline(p as ScarPoint)));
        expect(points[0]).toEqual(onOutline(stroke[0] as ScarPoint));
        if (points.length > 1) expect(points.at(-1)).toEqual(onOutline(stroke.at(-1) as ScarPoint));
      }),
    );
    expect(
      thinned([
        [0.5, 0.1],
        [0.5, 0.101],
        [0.5, 0.3],
      ]),
    ).toEqual([
      [0.5, 0.1],
      [0.5, 0.3],
    ]);
    expect(thinned([[0.5, 0.5]])).toEqual([[0.5, 0.5]]);
  });

  test('every component is drawn with as many zones as it has', () => {
    for (const [component, zones] of Object.entries(ZONES)) {
      expect(LUCENT_DRAWINGS[component as keyof typeof ZONES].zones.length).toBe(zones);
    }
  });

  test('the scale of a chart ends on a round number at or above the largest value', () => {
    expect([0, 3, 12, 48, 60, 100, 101].map((v) => upperEnd([v]))).toEqual([10, 5, 20, 50, 100, 100, 200]);
    expect(upperEnd([])).toBe(10);
  });

  test('ticks stand at the beginnings of months, at most seven of them, within the span', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 30_000 }), fc.integer({ min: 14, max: 12_000 }), (begin, length) => {
        const ticks = timeTicks(begin, begin + length);
        expect(ticks.length).toBeLessThanOrEqual(7);
        for (const t of ticks) {
          expect(t.day >= begin && t.day <= begin + length).toBe(true);
          expect(new Date(t.day * 86_400_000).getUTCDate()).toBe(1);
        }
      }),
    );
    expect(timeTicks(19_723, 19_800).map((t) => t.text)).toEqual(['2024-01', '2024-02', '2024-03']);
  });
});
