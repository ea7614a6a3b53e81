import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { scaleBar } from './scale-bar.ts';
import { fit, pan, toFilm, toScreen, zoom } from './viewport.ts';

const film = { columns: 3000, rows: 7000, aspect: 1.25 };
const view = fit({ width: 900, height: 600 }, film, false);
const coordinate = fc.double({ min: -2000, max: 8000, noNaN: true });

describe('viewport', () => {
  test('screen and film are each other’s inverse, mirrored too', () => {
    fc.assert(
      fc.property(coordinate, coordinate, fc.boolean(), (x, y, mirrored) => {
        const v = { ...view, mirrored };
        const back = toFilm(v, toScreen(v, { x, y }));
        expect(back.x).toBeCloseTo(x, 6);
        expect(back.y).toBeCloseTo(y, 6);
      }),
    );
  });

  test('a fitted film lies whole within the area', () => {
    const [corner, far] = [toScreen(view, { x: -0.5, y: -0.5 }), toScreen(view, { x: 2999.5, y: 6999.5 })];
    expect(Math.min(corner.x, corner.y)).toBeGreaterThanOrEqual(0);
    expect(far.x).toBeLessThanOrEqual(900);
    expect(far.y).toBeLessThanOrEqual(600);
  });

  test('what lies under the pointer stays there while zooming', () => {
    const at = { x: 400, y: 310 };
    const before = toFilm(view, at);
    const after = toFilm(zoom(view, 3, at, film), at);
    expect(after.x).toBeCloseTo(before.x, 6);
    expect(after.y).toBeCloseTo(before.y, 6);
  });

  test('the film follows the hand, also mirrored', () => {
    for (const mirrored of [false, true]) {
      const v = { ...zoom(view, 8, { x: 450, y: 300 }, film), mirrored };
      const point = { x: 1500, y: 3500 };
      const [before, after] = [toScreen(v, point), toScreen(pan(v, { dx: 30, dy: -20 }, film), point)];
      expect(after.x - before.x).toBeCloseTo(30, 6);
      expect(after.y - before.y).toBeCloseTo(-20, 6);
    }
  });

  test('the film cannot be lost: its middle stays on it', () => {
    const far = pan(view, { dx: 1e6, dy: -1e6 }, film);
    expect(far.centre).toEqual({ x: 0, y: 6999 });
  });

  test('a scale bar is the longest round length that fits', () => {
    expect(scaleBar(0.5, 150)).toEqual({ mm: 50, px: 100 });
    expect(scaleBar(0.01, 150)).toEqual({ mm: 1, px: 100 });
    expect(scaleBar(0, 150)).toBeNull();
    expect(scaleBar(Number.NaN, 150)).toBeNull();
  });
});
