import { describe, expect, test } from 'vitest';
import type { MarkedPair, Spot } from './register.ts';
import { type FilmPixels, type PixelMap, registerFilms } from './register-films.ts';

const later: FilmPixels = { mmPerPx: { x: 0.2, y: 0.25 }, aspect: 1.25 };
const earlier: FilmPixels = { mmPerPx: { x: 0.1, y: 0.1 }, aspect: 1 };
const at = (m: PixelMap, { x, y }: Spot): Spot => ({ x: m.xx * x + m.xy * y + m.x0, y: m.yx * x + m.yy * y + m.y0 });

/** The same place of the patient on both films: turned by 30 degrees and shifted, to the true scale of both. */
function pair(xMm: number, yMm: number, offMm: Spot = { x: 0, y: 0 }, magnified = 1): MarkedPair {
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
  const x = c * xMm - s * yMm + 40 + offMm.x;
  const y = s * xMm + c * yMm + 60 + offMm.y;
  return { from: { x: (magnified * xMm) / 0.1, y: (magnified * yMm) / 0.1 }, onto: { x: x / 0.2, y: y / 0.25 } };
}
const knee = [pair(0, 0), pair(70, 5), pair(30, -90)];

describe('VIEW-3 two films of one knee', () => {
  test('are laid over one another pixel by pixel, whatever the shape of their pixels', () => {
    const fit = registerFilms(knee, { earlier, later });
    if (!fit.ok) throw new Error(fit.reason.message);
    expect(fit.value.residualMm).toBeLessThan(1e-9);
    expect(fit.value.registration.turnDeg).toBeCloseTo(30, 9);
    expect(fit.value.scaleRatio).toBeCloseTo(1, 9);
    const other = pair(-25, 44);
    const laid = at(fit.value.toLater, other.from);
    expect(laid.x).toBeCloseTo(other.onto.x, 6);
    expect(laid.y).toBeCloseTo(other.onto.y, 6);
    const back = at(fit.value.toEarlier, laid);
    expect(back.x).toBeCloseTo(other.from.x, 6);
    expect(back.y).toBeCloseTo(other.from.y, 6);
    expect(fit.warnings).toEqual([]);
  });

  test('a point marked elsewhere shows in the residual, and beyond 2.5 mm the films are not laid over one another', () => {
    const off = (mm: number) => [pair(0, 0), pair(70, 5), pair(30, -90, { x: mm, y: 0 })];
    const small = registerFilms(off(2), { earlier, later });
    expect(small.ok && small.value.residualMm).toBeGreaterThan(0.2);
    expect(registerFilms(off(25), { earlier, later })).toMatchObject({
      ok: false,
      reason: { code: 'residual-too-large' },
    });
  });

  test('VIEW-4 points that nearly coincide are refused', () => {
    const near = [pair(0, 0), pair(7, 0), pair(0, 7)];
    expect(registerFilms(near, { earlier, later })).toMatchObject({ ok: false, reason: { code: 'points-too-near' } });
  });

  test('VIEW-5 scales that differ by more than 3 % are told', () => {
    const large = [pair(0, 0, undefined, 1.08), pair(70, 5, undefined, 1.08), pair(30, -90, undefined, 1.08)];
    const fit = registerFilms(large, { earlier, later });
    expect(fit.ok && fit.warnings.map((w) => w.code)).toEqual(['scales-differ']);
    expect(fit.ok && fit.value.scaleRatio).toBeCloseTo(1 / 1.08, 9);
  });

  test('the earlier film may lack a scale, the later one may not', () => {
    const none: FilmPixels = { mmPerPx: null, aspect: 1 };
    const fit = registerFilms(knee, { earlier: none, later });
    expect(fit.ok && fit.value.scaleRatio).toBeNull();
    expect(registerFilms(knee, { earlier, later: none })).toMatchObject({ ok: false, reason: { code: 'no-scale' } });
  });
});
