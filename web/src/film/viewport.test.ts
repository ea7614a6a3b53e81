import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { scaleBar } from './scale-bar.ts';
import {
  alongArrow,
  fit,
  pan,
  placed,
  resized,
  samplingOf,
  svgTransform,
  toFilm,
  toScreen,
  turn,
  zoom,
} from './viewport.ts';

const film = { columns: 3000, rows: 7000, aspect: 1.25 };
const view = fit({ width: 900, height: 600 }, film, false);
const angle = fc.double({ min: -180, max: 180, noNaN: true });
const coordinate = fc.double({ min: -2000, max: 8000, noNaN: true });

describe('viewport', () => {
  test('VIEW-1 screen and film are each other’s inverse, mirrored and turned too', () => {
    fc.assert(
      fc.property(coordinate, coordinate, fc.boolean(), angle, (x, y, mirrored, turnDeg) => {
        const v = { ...view, mirrored, turnDeg };
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

  test('the film follows the hand, also mirrored and turned', () => {
    for (const [mirrored, turnDeg] of [
      [false, 0],
      [true, 0],
      [true, 33],
      [false, -90],
    ] as const) {
      const v = { ...zoom(view, 8, { x: 450, y: 300 }, film), mirrored, turnDeg };
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

  test('a quarter turn is clockwise, keeps lengths, and four of them are none', () => {
    const v = { ...fit({ width: 900, height: 600 }, { ...film, aspect: 1 }, false), scale: 2 };
    const right = turn(v, 90, film);
    const ahead = { x: v.centre.x + 10, y: v.centre.y };
    expect(toScreen(right, ahead)).toEqual({ x: 450, y: 320 });
    expect(turn(turn(right, 90, film), 180, film)).toEqual(v);
    expect(turn(v, -90, film).turnDeg).toBe(-90);
    expect(turn(turn(v, 90, film), 90, film).turnDeg).toBe(180);
  });

  test('a film that is whole in sight stays whole when it is turned', () => {
    fc.assert(
      fc.property(angle, (deg) => {
        const v = turn(view, deg, film);
        for (const x of [-0.5, 2999.5])
          for (const y of [-0.5, 6999.5]) {
            const at = toScreen(v, { x, y });
            expect(at.x).toBeGreaterThanOrEqual(0);
            expect(at.y).toBeGreaterThanOrEqual(0);
            expect(at.x).toBeLessThanOrEqual(900);
            expect(at.y).toBeLessThanOrEqual(600);
          }
      }),
    );
  });

  test('a whole film stays whole in a smaller area, a part keeps its scale', () => {
    const area = { width: 300, height: 200 };
    expect(resized(view, area, film)).toEqual(fit(area, film, false));
    const part = zoom(view, 3, { x: 450, y: 300 }, film);
    expect(resized(part, area, film)).toEqual({ ...part, ...area });
  });

  test('an arrow key moves a mark by whole film pixels the way the arrow points, however the film is turned', () => {
    for (const mirrored of [false, true])
      for (const turnDeg of [0, 90, 180, -90]) {
        const v = { ...view, mirrored, turnDeg, aspect: 1 };
        const step = alongArrow(v, { dx: 1, dy: 0 });
        expect(Math.abs(step.x) + Math.abs(step.y)).toBe(1);
        const from = toScreen(v, v.centre);
        const to = toScreen(v, { x: v.centre.x + step.x, y: v.centre.y + step.y });
        expect(to.x - from.x).toBeCloseTo(v.scale, 9);
        expect(to.y - from.y).toBeCloseTo(0, 9);
      }
  });

  test('drawing, canvas and marks agree about where a place of a turned film is', () => {
    const v = { ...view, turnDeg: 17, mirrored: true };
    const at = { x: 1200, y: 2600 };
    const [a, b, c, d, e, f] = svgTransform(v).slice(7, -1).split(' ').map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const drawn = { x: a * at.x + c * at.y + e, y: b * at.x + d * at.y + f };
    const marked = toScreen(v, at);
    expect(drawn.x).toBeCloseTo(marked.x, 6);
    expect(drawn.y).toBeCloseTo(marked.y, 6);
    const s = samplingOf(v, 2);
    const pixel = toFilm(v, { x: (40 + 0.5) / 2, y: (70 + 0.5) / 2 });
    expect(s.left + 40 * s.stepX + 70 * (s.slantX ?? 0)).toBeCloseTo(pixel.x, 6);
    expect(s.top + 70 * s.stepY + 40 * (s.slantY ?? 0)).toBeCloseTo(pixel.y, 6);
  });

  test('a film pixel can be put at any place of the screen', () => {
    const v = placed({ ...view, turnDeg: -12 }, { x: 800, y: 900 }, { x: 60, y: -40 });
    const at = toScreen(v, { x: 800, y: 900 });
    expect(at.x).toBeCloseTo(510, 9);
    expect(at.y).toBeCloseTo(260, 9);
  });

  test('a scale bar is the longest round length that fits', () => {
    expect(scaleBar(0.5, 150)).toEqual({ mm: 50, px: 100 });
    expect(scaleBar(0.01, 150)).toEqual({ mm: 1, px: 100 });
    expect(scaleBar(0, 150)).toBeNull();
    expect(scaleBar(Number.NaN, 150)).toBeNull();
  });
});
