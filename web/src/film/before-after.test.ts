import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import { chosenPoints, datesOf, likelyBone, registered, soundWipe, wipePoints } from './before-after.ts';

const film = (id: string, takenOn: string | null, more: Partial<CaseFilm> = {}): CaseFilm => ({
  id,
  file: `${id}.dcm`,
  view: 'ap',
  side: 'right',
  role: 'present',
  scaleFacts: { volumetric: false, rows: 10, columns: 10, derived: false },
  ...(takenOn ? { takenOn } : {}),
  ...more,
});
const old = film('old', '2016-05-23');
const now = film('now', '2025-03-10');
const dates = { earlier: old, later: now };
const mark = (landmark: Mark['landmark'], on: string, x: number, y: number): Mark => ({
  landmark,
  side: 'right',
  film: on,
  points: [{ x, y }],
  how: 'by-hand',
});
const marks = (['old', 'now'] as const).flatMap((on, i) => [
  mark('medial-epicondyle', on, 100 + i, 200),
  mark('lateral-epicondyle', on, 500 + i, 210),
  mark('adductor-tubercle', on, 120 + i, 100),
  mark('medial-condyle-distal', on, 180, 330 + 50 * i),
]);
const scale = {
  source: 'marker',
  mmPerPx: { x: 0.2, y: 0.2 },
  relativeSd: 0.01,
  rule: 'x',
  because: 'x',
  doubtful: false,
} as const;

describe('VIEW-2 before and after', () => {
  test('only films of one view and one side with two dates, farthest apart first', () => {
    const mid = film('mid', '2020-01-01');
    const others = [
      film('left', '2011-01-01', { side: 'left' }),
      film('lat', '2012-01-01', { view: 'lateral' }),
      film('undated', null),
    ];
    const names = datesOf([now, mid, old, ...others]).map((d) => `${d.earlier.id} ${d.later.id}`);
    expect(names).toEqual(['old now', 'mid now', 'old mid']);
  });

  test('bony points that are the same on both films hold them together; what the replacement changed does not', () => {
    const points = wipePoints(marks, dates, { side: 'right', bone: 'femur' });
    const used = chosenPoints(points, null).map((p) => p.landmark.id);
    expect(used).toEqual(['medial-epicondyle', 'lateral-epicondyle', 'adductor-tubercle']);
    expect(likelyBone(marks, dates, 'right')).toBe('femur');
    const fit = registered(chosenPoints(points, null), { earlier: scale, later: scale });
    expect(fit.ok && fit.value.residualMm).toBeLessThan(1e-9);
  });

  test('a chosen point counts, and the residual shows that it moved', () => {
    const points = wipePoints(marks, dates, { side: 'right', bone: 'femur' });
    const chosen = ['medial-epicondyle', 'lateral-epicondyle', 'medial-condyle-distal'] as const;
    const fit = registered(chosenPoints(points, chosen), { earlier: scale, later: scale });
    expect(fit.ok ? fit.value.residualMm : fit.reason.code).not.toBe(0);
    const few = registered(chosenPoints(points, chosen.slice(0, 2)), { earlier: scale, later: scale });
    expect(few).toMatchObject({ ok: false, reason: { code: 'too-few-points' } });
  });

  test('a wipe ends where the case no longer has its films so', () => {
    const wipe = { earlier: 'old', later: 'now', bone: 'femur', chosen: null } as const;
    expect(soundWipe([old, now], wipe)?.later).toBe(now);
    expect(soundWipe([now], wipe)).toBeNull();
    expect(soundWipe([{ ...old, view: 'lateral' }, now], wipe)).toBeNull();
  });
});
