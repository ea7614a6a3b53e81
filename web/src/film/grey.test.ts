import { describe, expect, test } from 'vitest';
import { dragWindow, greyAlike, greyTable } from './grey.ts';

const greyOf = (table: Uint32Array, value: number) => table[value]! & 0xff;

describe('grey window', () => {
  test('the line from low to high agrees with the plain formula at every value', () => {
    const table = greyTable({ low: 1000, high: 40000, inverted: false });
    for (let v = 0; v < 65536; v++) {
      const plain = Math.round(Math.min(Math.max(((v - 1000) / 39000) * 255, 0), 255));
      expect(Math.abs(greyOf(table, v) - plain)).toBeLessThanOrEqual(1);
    }
  });

  test('every colour is an opaque grey', () => {
    for (const colour of greyTable({ low: 0, high: 65535, inverted: true })) {
      const [r, g, b, a] = [colour & 255, (colour >>> 8) & 255, (colour >>> 16) & 255, colour >>> 24];
      if (r !== g || g !== b || a !== 255) throw new Error(`not a grey: ${colour.toString(16)}`);
    }
  });

  test('inverted, black and white change over', () => {
    const plain = greyTable({ low: 0, high: 100, inverted: false });
    const inverted = greyTable({ low: 0, high: 100, inverted: true });
    expect([greyOf(plain, 0), greyOf(plain, 100)]).toEqual([0, 255]);
    expect([greyOf(inverted, 0), greyOf(inverted, 100)]).toEqual([255, 0]);
  });

  test('a drag to the right widens the window about its middle, one downwards lifts it', () => {
    const start = { low: 100, high: 300, inverted: false };
    expect(dragWindow(start, { dx: 50, dy: 0 }, 1000)).toEqual({ low: 50, high: 350, inverted: false });
    expect(dragWindow(start, { dx: 0, dy: 50 }, 1000)).toEqual({ low: 200, high: 400, inverted: false });
  });

  test('the window never closes', () => {
    const shut = dragWindow({ low: 100, high: 300, inverted: false }, { dx: -9999, dy: 0 }, 1000);
    expect(shut.high - shut.low).toBeGreaterThan(0);
  });
});

describe('grey window of two films', () => {
  test('is changed alike on both: each begins at its own, and black and white change over together', () => {
    const [start, own] = [
      { low: 100, high: 300, inverted: false },
      { low: 1000, high: 5000, inverted: false },
    ];
    expect(greyAlike(start, { start, own })).toEqual(own);
    expect(greyAlike({ low: 150, high: 300, inverted: true }, { start, own })).toEqual({
      low: 2000,
      high: 5000,
      inverted: true,
    });
  });
});
