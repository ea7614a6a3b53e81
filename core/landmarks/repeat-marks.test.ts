import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalDraws } from '../measure/normal-draws.ts';
import type { LandmarkId } from './landmark-table.ts';
import type { Mark } from './mark.ts';
import { LEAST_FREEDOM, markingSpread, withMarkingSpread } from './repeat-marks.ts';
import type { RepeatedMark } from './repeated-mark.ts';

const MM = { x: 0.2, y: 0.2 };
const place = (landmark: LandmarkId, x: number, y: number, by?: string): Mark => ({
  landmark,
  side: 'left',
  film: 'ap',
  points: [{ x, y }],
  how: 'by-hand',
  ...(by ? { by } : {}),
});
const again = (mark: Mark, round: number, why: RepeatedMark['why'] = 'repeat'): RepeatedMark => ({
  ...mark,
  round,
  why,
});
const spreadOf = (marks: readonly Mark[], repeats: readonly RepeatedMark[]) =>
  markingSpread({ marks, repeats, mmPerPx: (film) => (film === 'no-scale' ? null : MM) });
const ofBone = (s: ReturnType<typeof spreadOf>) => {
  const found = s.classes.find((c) => c.defaultMm === 1);
  if (!found) throw new Error('no points of bone');
  return found;
};

describe('LM-9 spread of marking from landmarks placed again', () => {
  // Worked by hand as one-way analysis of variance (Bland & Altman 1996: root of the mean within-subject variance):
  // 4 and 6 px apart in x at 0.2 mm: squares 0.8²/2 and 1.2²/2, two coordinates, so 1.04 / 4 degrees of freedom.
  test('LM-9 two points placed twice give the root of the mean within-mark variance', () => {
    const marks = [place('adductor-tubercle', 100, 100), place('fibular-tip', 200, 300)];
    const repeats = [again(place('adductor-tubercle', 104, 100), 2), again(place('fibular-tip', 206, 300), 2)];
    const spread = spreadOf(marks, repeats);
    expect(ofBone(spread)).toMatchObject({ marks: 2, freedom: 4, measured: false, usedMm: 1 });
    expect(ofBone(spread).pooledMm).toBeCloseTo(Math.sqrt(1.04 / 4), 12);
    expect(spread.each.map((m) => m.apartMm)).toEqual([expect.closeTo(0.8, 12), expect.closeTo(1.2, 12)]);
  });

  test('LM-9 the true spread is found again from drawn placings, of points and of outlines', () => {
    const next = normalDraws(7);
    const truth = 0.8;
    const shift = () => (truth * next()) / MM.x;
    const bony: readonly LandmarkId[] = ['adductor-tubercle', 'fibular-tip', 'medial-epicondyle', 'lateral-epicondyle'];
    const rounds = Array.from({ length: 60 }, (_, i) => i + 2);
    const repeats = bony.flatMap((l) => rounds.map((round) => again(place(l, 500 + shift(), 500 + shift()), round)));
    expect(ofBone(spreadOf([], repeats)).usedMm).toBeCloseTo(truth, 1);

    const outline = (): Mark => ({
      ...place('femoral-head', 0, 0),
      points: Array.from({ length: 8 }, (_, k) => ({
        x: 900 + 110 * Math.cos((k * Math.PI) / 4) + shift(),
        y: 300 + 110 * Math.sin((k * Math.PI) / 4) + shift(),
      })),
    });
    const heads = Array.from({ length: 240 }, (_, i) => again(outline(), i + 2));
    const sharp = spreadOf([], heads).classes.find((c) => c.defaultMm === 0.7);
    expect(sharp?.usedMm).toBeCloseTo(truth, 1);
  });

  test('LM-9 the default stands until ten degrees of freedom are there, and a mark without repeats never moves', () => {
    const marks: Mark[] = [];
    const repeats: RepeatedMark[] = [];
    const ids: readonly LandmarkId[] = [
      'adductor-tubercle',
      'fibular-tip',
      'medial-epicondyle',
      'lateral-epicondyle',
      'femoral-notch',
    ];
    for (const [i, id] of ids.entries()) {
      marks.push(place(id, 100, 100));
      repeats.push(again(place(id, 110, 100), 2));
      const bone = ofBone(spreadOf(marks, repeats));
      expect(bone.freedom).toBe(2 * (i + 1));
      expect(bone.measured).toBe(bone.freedom >= LEAST_FREEDOM);
    }
    const spread = spreadOf(marks, repeats);
    const stated: Mark = { ...place('medial-plateau', 1, 1), sdMm: 3 };
    const metal = place('tray-medial-edge', 1, 1);
    const used = withMarkingSpread([...marks, stated, metal], spread);
    expect(used.map((m) => m.sdMm)).toEqual([...ids.map(() => expect.closeTo(1, 12)), 3, undefined]);
  });

  test('LM-9 what one person repeats is told apart from what two people differ by', () => {
    const marks = [place('adductor-tubercle', 100, 100, 'Ada')];
    const repeats = [
      again(place('adductor-tubercle', 102, 100, 'Ada'), 2),
      again(place('adductor-tubercle', 140, 100, 'Bo'), 3),
    ];
    const bone = ofBone(spreadOf(marks, repeats));
    expect(bone.onePersonMm).toBeCloseTo(Math.sqrt(0.4 ** 2 / 2 / 2), 12);
    expect(bone.pooledMm ?? 0).toBeGreaterThan(3 * (bone.onePersonMm ?? 9));
    expect(spreadOf(marks, repeats).each[0]?.people).toEqual(['Ada', 'Bo']);
  });

  test('LM-9 conflicts and films without scale count for nothing; equal places count as a rounding, not as none', () => {
    const marks = [place('adductor-tubercle', 100, 100), { ...place('fibular-tip', 1, 1), film: 'no-scale' }];
    const repeats = [
      again(place('adductor-tubercle', 180, 100), 2, 'conflict'),
      again({ ...place('fibular-tip', 9, 9), film: 'no-scale' }, 2),
    ];
    expect(spreadOf(marks, repeats).each).toEqual([]);
    const same = spreadOf(marks, [again(place('adductor-tubercle', 100, 100), 2)]);
    expect(ofBone(same).pooledMm).toBeCloseTo(0.2 / Math.sqrt(12), 12);
  });

  test('LM-9 nothing depends on where on the film the landmarks lie, and no number is lost', () => {
    const far = fc.double({ min: -3000, max: 3000, noNaN: true });
    fc.assert(
      fc.property(far, far, fc.array(fc.tuple(far, far), { minLength: 2, maxLength: 5 }), (dx, dy, places) => {
        const at = (x: number, y: number) =>
          spreadOf(
            [],
            places.map(([px, py], i) => again(place('fibular-tip', px + x, py + y), i + 2)),
          );
        const [here, there] = [ofBone(at(0, 0)).pooledMm ?? -1, ofBone(at(dx, dy)).pooledMm ?? -1];
        expect(Number.isFinite(here)).toBe(true);
        expect(Math.abs(here - there)).toBeLessThan(1e-6 * (1 + here));
      }),
    );
  });
});
