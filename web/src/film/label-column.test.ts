import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { describe, expect, test } from 'vitest';
import { labelColumn } from './label-column.ts';
import { toScreen, type Viewport } from './viewport.ts';

/** An area without open buttons, one film pixel to the screen pixel, its middle on the film's middle. */
const view: Viewport = {
  width: 370,
  height: 390,
  centre: { x: 185, y: 195 },
  scale: 1,
  aspect: 1,
  mirrored: false,
  turnDeg: 0,
};

const line = (label: string, from: number, to: number, y: number): DrawnLayer =>
  ({
    kind: 'joint-line',
    id: label,
    label,
    belongs: 'plan',
    side: 'right',
    points: [
      { x: from, y },
      { x: to, y },
    ],
  }) as unknown as DrawnLayer;

const middle = [line('Line', 150, 220, 195)];
const leftOf = (labels: ReturnType<typeof labelColumn>) => labels.every(({ at, anchor }) => at.x < anchor.x);

describe('labels beside a drawing', () => {
  test('they stand to the right, and to the left where marks crowd the right', () => {
    expect(toScreen(view, { x: 185, y: 195 })).toEqual({ x: 185, y: 195 });
    expect(leftOf(labelColumn(middle, { view, marks: [] }))).toBe(false);
    const crowd = [250, 258, 266].map((x) => ({ x, y: 195 }));
    expect(leftOf(labelColumn(middle, { view, marks: crowd }))).toBe(true);
    const both = [...crowd, ...[105, 110, 115, 120].map((x) => ({ x, y: 195 }))];
    expect(leftOf(labelColumn(middle, { view, marks: both }))).toBe(false);
  });

  test('where they fit on one side only they stand there, above or below the marks that are in the way', () => {
    const nearRight = [line('A line with a long name', 240, 340, 195)];
    expect(leftOf(labelColumn(nearRight, { view, marks: [] }))).toBe(true);
    const nearLeft = [line('A line with a long name', 30, 120, 195)];
    const crowd = Array.from({ length: 9 }, (_, i) => ({ x: 150 + 10 * i, y: 195 }));
    const [plain] = labelColumn(nearLeft, { view, marks: [] });
    const [clear] = labelColumn(nearLeft, { view, marks: crowd });
    if (!plain || !clear) throw new Error('One label each.');
    expect(leftOf([clear])).toBe(false);
    expect([clear.at.x, clear.anchor]).toEqual([plain.at.x, plain.anchor]);
    expect(plain.at.y).toBe(199);
    expect(Math.abs(clear.at.y - plain.at.y)).toBe(17);
    expect(Math.abs(clear.at.y - 8 - 195)).toBeGreaterThan(14);
    const everywhere = crowd.flatMap(({ x }) => Array.from({ length: 40 }, (_, i) => ({ x, y: 10 * i })));
    expect(labelColumn(nearLeft, { view, marks: everywhere })).toHaveLength(1);
  });

  test('they keep off the words of side and date above and of direction and scale below', () => {
    const low = labelColumn([line('Line', 150, 220, 330)], { view, marks: [] });
    expect(low.map(({ at }) => at.y <= view.height - 108)).toEqual([true]);
    const crowd = [250, 258, 266].map((x) => ({ x, y: 60 }));
    const [high] = labelColumn([line('Line', 150, 220, 60)], { view, marks: crowd });
    expect(high && (high.at.x >= 130 || high.at.y - 17 >= 145)).toBe(true);
  });

  test('none stands over another or beyond the lower edge, and the same words are said once', () => {
    const many = [
      ...Array.from({ length: 6 }, (_, i) => line(`Line ${i}`, 150, 220, 380 + i)),
      line('Line 3', 150, 220, 200),
    ];
    const labels = labelColumn(many, { view, marks: [] });
    const heights = labels.map(({ at }) => at.y).sort((a, b) => a - b);
    expect(labels.map(({ text }) => text).sort()).toEqual([0, 1, 2, 3, 4, 5].map((i) => `Line ${i}`));
    for (let i = 1; i < heights.length; i++)
      expect((heights[i] as number) - (heights[i - 1] as number)).toBeGreaterThanOrEqual(17);
    expect(Math.max(...heights)).toBeLessThanOrEqual(view.height);
  });
});
