import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { PatientVector } from '@gapline/core/landmarks/slice-stack.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Pointer } from '../gestures/pointer.ts';
import { dragSlices, wheelSlices, within } from './scroll.ts';
import { namedWindow } from './slice-windows.ts';
import { spannedLines } from './spanned-lines.ts';
import { placeOnSlice } from './stack-edits.ts';
import { STACK_IDLE, type StackWish, stackStep } from './stack-hand.ts';
import { stackKeyWish } from './stack-keys.ts';
import { nextRun } from './stack-shelf.ts';
import { edgesOf, shownUpright } from './upright.ts';

const setting = { placing: false, windowing: false, placeOf: () => null };
const pointer = (type: Pointer['type'], x: number, y: number, more: Partial<Pointer> = {}): Pointer => ({
  type,
  id: 1,
  at: { x, y },
  device: 'mouse',
  button: 'main',
  hand: false,
  on: null,
  ...more,
});
function wishesOf(events: readonly Pointer[], placing = false): readonly StackWish[] {
  let hand = STACK_IDLE;
  return events.flatMap((event) => {
    const next = stackStep(hand, event, { ...setting, placing });
    hand = next.hand;
    return next.wishes;
  });
}
const kinds = (wishes: readonly StackWish[]) => [...new Set(wishes.map((w) => w.kind))];

describe('hand over a stack', () => {
  test('a drag with the main button or one finger goes through the slices, and moves nothing', () => {
    for (const device of ['mouse', 'touch'] as const) {
      const wishes = wishesOf([
        pointer('down', 50, 50, { device }),
        pointer('move', 52, 80, { device }),
        pointer('move', 52, 95, { device }),
        pointer('up', 52, 95, { device }),
      ]);
      expect(wishes).toEqual([
        { kind: 'scroll', dy: 30 },
        { kind: 'scroll', dy: 15 },
      ]);
    }
  });

  test('the middle button and the space bar move the picture; two fingers move and zoom it', () => {
    for (const more of [{ button: 'middle' }, { hand: true }] as const)
      expect(kinds(wishesOf([pointer('down', 5, 5, more), pointer('move', 25, 5), pointer('up', 25, 5)]))).toEqual([
        'pan',
      ]);
    const finger = (type: Pointer['type'], id: number, x: number) => pointer(type, x, 50, { id, device: 'touch' });
    const pinched = wishesOf([
      finger('down', 1, 40),
      finger('down', 2, 80),
      finger('move', 2, 120),
      finger('up', 2, 120),
      finger('move', 1, 60),
    ]);
    expect(kinds(pinched)).toEqual(['loupe', 'pan', 'zoom']);
  });

  test('a press places where something is to be placed', () => {
    expect(wishesOf([pointer('down', 7, 8), pointer('up', 7, 8)], true)).toContainEqual({
      kind: 'place',
      at: { x: 7, y: 8 },
    });
  });
});

describe('going through the slices', () => {
  test('a notch of the wheel is one slice; the small steps of a touch pad add up; turning back begins anew', () => {
    expect(wheelSlices(100, 0)).toEqual({ by: -1, rest: 0 });
    expect(wheelSlices(-300, 0)).toEqual({ by: 3, rest: 0 });
    let rest = 0;
    let by = 0;
    for (let i = 0; i < 25; i++) {
      const next = wheelSlices(8, rest);
      rest = next.rest;
      by += next.by;
    }
    expect(by).toBe(-2);
    expect(wheelSlices(-10, 90)).toEqual({ by: 0, rest: -10 });
  });

  test('however a drag is cut into pieces, its length through the picture is the whole stack', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 60 }), (pieces) => {
        const total = pieces.reduce((s, p) => s + p, 0);
        let [rest, by] = [0, 0];
        for (const dy of pieces) {
          const next = dragSlices(-dy, { rest, height: 500, count: 100 });
          rest = next.rest;
          by += next.by;
        }
        expect(by).toBe(Math.trunc(total / 5));
      }),
    );
    expect(dragSlices(-6, { rest: 0, height: 300, count: 400 }).by).toBe(2);
    expect([within(-3, 10), within(4, 10), within(12, 10)]).toEqual([0, 4, 9]);
  });

  test('slices near the one looked at are loaded first, and each once', () => {
    const asked = Array<boolean>(25).fill(false);
    const order: number[] = [];
    for (let run = nextRun(asked, 200); run !== null; run = nextRun(asked, 200)) {
      asked[run] = true;
      order.push(run);
    }
    expect(order.slice(0, 5)).toEqual([12, 11, 13, 10, 14]);
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: 25 }, (_, i) => i));
  });

  test('keys: pages and free arrows go by slices, Shift by ten, Home and End to the ends, numbers choose greys', () => {
    const press = (key: string, shift = false) => ({ key, shift, alt: false, ctrl: false });
    expect(stackKeyWish(press('PageUp'), 'point')).toEqual({ kind: 'slices', by: 1 });
    expect(stackKeyWish(press('ArrowDown', true), 'film')).toEqual({ kind: 'slices', by: -10 });
    expect(stackKeyWish(press('ArrowDown'), 'point')).toEqual({ kind: 'nudge', dx: 0, dy: 1 });
    expect(stackKeyWish(press('ArrowUp'), 'crosshair')?.kind).toBe('crosshair');
    expect(stackKeyWish(press('End'), 'film')).toEqual({ kind: 'end', which: 'last' });
    expect(stackKeyWish(press('2'), 'film')).toEqual({ kind: 'named-window', name: 'metal' });
    expect(stackKeyWish(press('i'), 'film')).toEqual({ kind: 'invert' });
    expect(stackKeyWish({ ...press('PageUp'), ctrl: true }, 'film')).toBeNull();
  });
});

describe('how slices are shown', () => {
  const ways: readonly (readonly [PatientVector, PatientVector])[] = [
    [
      [1, 0, 0],
      [0, 1, 0],
    ],
    [
      [-1, 0, 0],
      [0, 1, 0],
    ],
    [
      [1, 0, 0],
      [0, -1, 0],
    ],
    [
      [-1, 0, 0],
      [0, -1, 0],
    ],
  ];
  test.each(ways)(
    'rows along %j and columns down %j: the patient’s right at the viewer’s left, the front on top',
    (along, down) => {
      const shown = shownUpright({ along, down });
      const { left, right, top, bottom } = edgesOf({ along, down }, shown);
      expect([left.letter, right.letter, top.letter, bottom.letter]).toEqual(['R', 'L', 'A', 'P']);
    },
  );

  test('as the file has them, the letters are those of its vectors', () => {
    const edges = edgesOf({ along: [0, 1, 0], down: [0, 0, -1] }, { mirrored: false, turnDeg: 0 });
    expect([edges.left.word, edges.right.word, edges.top.word, edges.bottom.word]).toEqual([
      'front',
      'back',
      'head',
      'feet',
    ]);
  });

  test('ROT-17 windows of bone, metal and soft tissue; that of metal reaches the brightest value', () => {
    expect(namedWindow('bone', 9000)).toEqual({ low: 524, high: 2524, inverted: false });
    expect(namedWindow('metal', 9024)).toEqual({ low: 2024, high: 9024, inverted: false });
    expect(namedWindow('metal', 2000)).toEqual({ low: 2024, high: 3071 + 1024, inverted: false });
    expect(namedWindow('soft', 0)).toEqual({ low: 864, high: 1264, inverted: false });
  });
});

describe('marks on slices', () => {
  const name = { landmark: 'ct-plateau-outline', side: 'right', film: 'ct' } as const;
  const outline: Mark = { ...name, slice: 4, points: [{ x: 1, y: 1 }], sdMm: 0.8, how: 'by-hand' };
  const file = { marks: [outline] } as unknown as CaseFile;

  test('an outline goes on along its slice, and begins anew on another; a point goes to the slice pressed', () => {
    expect(placeOnSlice(file, name, { x: 5, y: 6.004, slice: 4 }).mark.points).toEqual([
      { x: 1, y: 1 },
      { x: 5, y: 6 },
    ]);
    expect(placeOnSlice(file, name, { x: 5, y: 6, slice: 7 }).mark).toMatchObject({
      slice: 7,
      sdMm: 0.8,
      points: [{ x: 5, y: 6 }],
    });
    const tip = placeOnSlice(file, { ...name, landmark: 'ct-tubercle-tip' }, { x: 2, y: 3, slice: 1 });
    expect(tip.mark).toEqual({
      landmark: 'ct-tubercle-tip',
      side: 'right',
      film: 'ct',
      slice: 1,
      points: [{ x: 2, y: 3 }],
      how: 'by-hand',
    });
  });

  test('a line between marks lies over every slice, moved along with a tilted gantry', () => {
    const each = [0, 1, 2].map((k) => ({ sha256: '', file: '', originMm: [0, 2 * k, 5 * k] as const }));
    const plane = { stack: { along: [1, 0, 0], down: [0, 1, 0], each } as const, mmPerPx: { x: 0.5, y: 0.5 } };
    const at = (landmark: Mark['landmark'], slice: number, x: number): Mark => ({
      ...outline,
      landmark,
      slice,
      points: [{ x, y: 100 }],
    });
    const marks = [at('ct-femoral-posterior-medial', 0, 10), at('ct-femoral-posterior-lateral', 2, 90)];
    const [line] = spannedLines(marks, plane, 0);
    expect(line).toMatchObject({ from: { x: 10, y: 100 }, to: { x: 90, y: 108 }, here: false });
    expect(spannedLines(marks.slice(0, 1), plane, 0)).toEqual([]);
  });
});
