import { describe, expect, test } from 'vitest';
import { greyTable } from './grey.ts';
import { OUTSIDE, paint, samplingThrough } from './paint.ts';
import { pyramid } from './pyramid.ts';
import { fit, samplingOf, toFilm } from './viewport.ts';

const width = 640;
const height = 900;
const value = (x: number, y: number) => Math.round(32768 + 16000 * Math.sin(x / 41) + 16000 * Math.cos(y / 67));
const values = new Uint16Array(width * height);
for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) values[y * width + x] = value(x, y);
const levels = pyramid({ width, height, values });
const table = greyTable({ low: 0, high: 65535, inverted: false });

/** The plain formula: the film's own values, bilinear at one place, no pyramid and no integers. */
function plainGrey(x: number, y: number): number | null {
  if (x < -0.5 || y < -0.5 || x >= width - 0.5 || y >= height - 0.5) return null;
  const [cx, cy] = [Math.min(Math.max(x, 0), width - 1), Math.min(Math.max(y, 0), height - 1)];
  const [x0, y0] = [Math.floor(cx), Math.floor(cy)];
  const at = (i: number, j: number) => value(Math.min(i, width - 1), Math.min(j, height - 1));
  const top = at(x0, y0) * (1 - cx + x0) + at(x0 + 1, y0) * (cx - x0);
  const bottom = at(x0, y0 + 1) * (1 - cx + x0) + at(x0 + 1, y0 + 1) * (cx - x0);
  return ((top * (1 - cy + y0) + bottom * (cy - y0)) / 65535) * 255;
}

function painted(view: ReturnType<typeof fit>, ratio: number) {
  const target = { width: view.width * ratio, height: view.height * ratio, colours: new Uint32Array(0) };
  target.colours = new Uint32Array(target.width * target.height);
  paint(target, levels, samplingOf(view, ratio), table);
  return target;
}

describe('paint', () => {
  const size = { columns: width, rows: height, aspect: 1 };
  const whole = fit({ width: 320, height: 240 }, size, false);

  test.each([
    ['one to one', 1, false, 0, 1.01],
    ['magnified', 3.7, false, 0, 1.01],
    ['mirrored', 1.6, true, 0, 1.01],
    ['turned by a quarter', 1.2, false, 90, 1.01],
    ['turned freely and mirrored', 0.9, true, -7.5, 1.01],
    ['reduced and turned', 0.31, false, 33, 3],
    // A halved level is the mean of smooth values: it may differ from a single sample by a little more.
    ['reduced', 0.31, false, 0, 3],
  ])('agrees with the plain bilinear formula within rounding: %s', (_, scale, mirrored, turnDeg, most) => {
    const view = { ...whole, scale, mirrored, turnDeg };
    const { colours } = painted(view, 1);
    let worst = 0;
    for (let y = 0; y < 240; y++) {
      for (let x = 0; x < 320; x++) {
        const at = toFilm(view, { x: x + 0.5, y: y + 0.5 });
        const plain = plainGrey(at.x, at.y);
        const colour = colours[y * 320 + x]!;
        if (plain === null) expect(colour).toBe(OUTSIDE);
        else worst = Math.max(worst, Math.abs((colour & 255) - plain));
      }
    }
    expect(worst).toBeLessThanOrEqual(most);
  });

  test('the last row and column of a film are painted, the next ones are not', () => {
    const target = { width: 3, height: 1, colours: new Uint32Array(3) };
    paint(target, levels, { left: width - 2, top: height - 1, stepX: 1, stepY: 1 }, table);
    expect(target.colours[1]).not.toBe(OUTSIDE);
    expect(target.colours[2]).toBe(OUTSIDE);
  });

  test('a film seen through a registration is sampled where the map takes each pixel', () => {
    const map = { xx: 0.9, xy: 0.2, yx: -0.25, yy: 1.1, x0: 30, y0: -8 };
    const own = samplingOf({ ...whole, turnDeg: 11 }, 1);
    const seen = samplingThrough(own, map);
    const [column, row] = [37, 81];
    const x = own.left + column * own.stepX + row * (own.slantX ?? 0);
    const y = own.top + row * own.stepY + column * (own.slantY ?? 0);
    expect(seen.left + column * seen.stepX + row * (seen.slantX ?? 0)).toBeCloseTo(0.9 * x + 0.2 * y + 30, 6);
    expect(seen.top + row * seen.stepY + column * (seen.slantY ?? 0)).toBeCloseTo(-0.25 * x + 1.1 * y - 8, 6);
  });

  test('a film taller than 8192 pixels is painted to its end', () => {
    const tall = { width: 4, height: 9000, values: new Uint16Array(36000).fill(65535) };
    const target = { width: 1, height: 1, colours: new Uint32Array(1) };
    paint(target, pyramid(tall), { left: 1, top: 8999, stepX: 1, stepY: 1 }, table);
    expect(target.colours[0]! & 255).toBe(255);
  });
});
