import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import { describe, expect, test } from 'vitest';
import { leftOf, REGIONS, VIEW_HEIGHT, VIEWS } from './bone-drawing.ts';
import { defectsOf } from './defects.ts';
import { depthShade } from './depth-shade.ts';

describe('the picture map of the bones', () => {
  test('every region can be pressed in some view, and every box lies within its view', () => {
    for (const bone of ['femur', 'tibia'] as const) {
      const pressed = new Set(VIEWS[bone].flatMap((v) => v.boxes.map(([id]) => id)));
      expect([...pressed].sort()).toEqual(REGIONS[bone].map((r) => r.id).sort());
      for (const view of VIEWS[bone])
        for (const [, [x, y, width, height]] of view.boxes) {
          expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
          expect(x + width).toBeLessThanOrEqual(view.width);
          expect(y + height).toBeLessThanOrEqual(VIEW_HEIGHT);
        }
    }
  });

  test('in a right knee the front is turned over: medial stands at the other edge', () => {
    const front = VIEWS.femur.find((v) => v.id === 'femur-front')!;
    const box = (id: string) => front.boxes.find(([region]) => region === id)![1];
    expect(leftOf(front, false, box('distal-medial'))).toBeLessThan(leftOf(front, false, box('distal-lateral')));
    expect(leftOf(front, true, box('distal-medial'))).toBeGreaterThan(leftOf(front, true, box('distal-lateral')));
  });

  test('shades follow the depth; not known is no shade', () => {
    expect([0, 0.1, 5, 5.1, 10, 20, 20.1].map(depthShade)).toEqual([0, 1, 1, 2, 2, 3, 4]);
    expect(depthShade(undefined)).toBeNull();
  });

  test('defects to be treated stand deepest first; what is sound or not known is none', () => {
    const tibia = {
      bone: 'tibia',
      map: { bone: 'tibia', map: { plateau: { medial: { depthMm: 4 }, lateral: { depthMm: 0, unsupportedPct: 0 } } } },
    } as unknown as StockOfBone;
    const femur = {
      bone: 'femur',
      map: {
        bone: 'femur',
        map: { distal: { lateral: { depthMm: 9 } }, posterior: { medial: { unsupportedPct: 30 } } },
      },
    } as unknown as StockOfBone;
    expect(defectsOf([femur, tibia]).map((d) => d.surface.label)).toEqual([
      'lateral distal femur',
      'medial plateau',
      'medial posterior femur',
    ]);
  });
});
