import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pyramid } from './pyramid.ts';

const film = (width: number, height: number, value: (x: number, y: number) => number) => {
  const values = new Uint16Array(width * height);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) values[y * width + x] = value(x, y);
  return { width, height, values };
};

describe('pyramid', () => {
  test('each level is half as wide and high, rounded up, down to 256', () => {
    const sizes = pyramid(film(1501, 3000, () => 7)).map((l) => [l.width, l.height]);
    expect(sizes).toEqual([
      [1501, 3000],
      [751, 1500],
      [376, 750],
      [188, 375],
      [94, 188],
    ]);
  });

  test('a halved pixel is the rounded mean of its four, edges counted twice', () => {
    const values = (x: number, y: number) => (x * 7919 + y * 104729) % 65536;
    fc.assert(
      fc.property(fc.integer({ min: 257, max: 300 }), fc.integer({ min: 1, max: 40 }), (width, height) => {
        const base = film(width, height, values);
        const half = pyramid(base)[1]!;
        for (let y = 0; y < half.height; y++) {
          for (let x = 0; x < half.width; x++) {
            const [x2, y2] = [Math.min(2 * x + 1, width - 1), Math.min(2 * y + 1, height - 1)];
            const sum = values(2 * x, 2 * y) + values(x2, 2 * y) + values(2 * x, y2) + values(x2, y2);
            if (half.values[y * half.width + x] !== Math.floor((sum + 2) / 4)) return false;
          }
        }
        return true;
      }),
      { numRuns: 30 },
    );
  });

  test('white stays white: no sum overflows', () => {
    expect(Math.min(...pyramid(film(600, 600, () => 65535)).at(-1)!.values)).toBe(65535);
  });
});
