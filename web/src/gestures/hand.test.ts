import { describe, expect, test } from 'vitest';
import type { Place } from '../film/viewport.ts';
import { type Hand, IDLE, type Setting, step } from './hand.ts';
import { type Pointer, pointUnder, type Wish } from './pointer.ts';

const mark = { key: 'fibular-tip|right|f', index: 0 };
const setting: Setting = { placing: false, windowing: false, placeOf: () => ({ x: 102, y: 98 }) };

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

/** Plays a row of pointer events and gives every wish in order. */
function play(events: readonly Pointer[], where: Setting = setting): { hand: Hand; wishes: readonly Wish[] } {
  let hand = IDLE;
  const wishes: Wish[] = [];
  for (const event of events) {
    const next = step(hand, event, where);
    hand = next.hand;
    wishes.push(...next.wishes);
  }
  return { hand, wishes };
}

const kinds = (wishes: readonly Wish[]) => wishes.map((w) => w.kind);

describe('hand over the film', () => {
  test('a drag on the film pans it by exactly the way of the pointer', () => {
    const { wishes, hand } = play([
      pointer('down', 10, 10),
      pointer('move', 30, 15),
      pointer('move', 50, 40),
      pointer('up', 50, 40),
    ]);
    expect(wishes).toEqual([
      { kind: 'pan', dx: 20, dy: 5 },
      { kind: 'pan', dx: 20, dy: 25 },
    ]);
    expect(hand).toEqual(IDLE);
  });

  test('a press places when something is to be placed, where the pointer went down', () => {
    const press = [pointer('down', 10, 10), pointer('move', 12, 11), pointer('up', 12, 11)];
    expect(play(press, { ...setting, placing: true }).wishes).toEqual([{ kind: 'place', at: { x: 10, y: 10 } }]);
    expect(play(press).wishes).toEqual([{ kind: 'select', point: null }]);
  });

  test('a drag while placing pans and places nothing', () => {
    const drag = [pointer('down', 10, 10), pointer('move', 90, 10), pointer('up', 90, 10)];
    expect(kinds(play(drag, { ...setting, placing: true }).wishes)).toEqual(['pan']);
  });

  test('where a line is to be drawn a drag draws it from where the pointer went down, and a press still places', () => {
    const drawing: Setting = { ...setting, placing: true, drawing: true };
    const drag = [pointer('down', 10, 10), pointer('move', 30, 10), pointer('move', 30, 40), pointer('up', 31, 41)];
    expect(play(drag, drawing)).toEqual({
      hand: IDLE,
      wishes: [
        { kind: 'stroke', phase: 'begin', at: { x: 10, y: 10 } },
        { kind: 'stroke', phase: 'on', at: { x: 30, y: 10 } },
        { kind: 'stroke', phase: 'on', at: { x: 30, y: 40 } },
        { kind: 'stroke', phase: 'end', at: { x: 31, y: 41 } },
      ],
    });
    expect(kinds(play([pointer('down', 10, 10), pointer('up', 10, 10)], drawing).wishes)).toEqual(['place']);
    expect(kinds(play([pointer('down', 10, 10, { hand: true }), pointer('move', 50, 10)], drawing).wishes)).toEqual([
      'pan',
    ]);
  });

  test('a second finger or a cancelled pointer takes the line back', () => {
    const drawing: Setting = { ...setting, placing: true, drawing: true };
    const touch = { device: 'touch' } as const;
    const begun = [pointer('down', 0, 0, touch), pointer('move', 40, 0, touch)];
    const second = play([...begun, pointer('down', 90, 0, { ...touch, id: 2 })], drawing);
    expect(second.hand.is).toBe('pinching');
    expect(second.wishes).toContainEqual({ kind: 'stroke', phase: 'cancel', at: { x: 40, y: 0 } });
    const lost = play([...begun, pointer('cancel', 40, 0, touch)], drawing);
    expect(lost.hand).toEqual(IDLE);
    expect(lost.wishes.at(-1)).toEqual({ kind: 'stroke', phase: 'cancel', at: { x: 40, y: 0 } });
  });

  test('a mark follows the pointer without jumping under it, and is let go where it was dropped', () => {
    const { wishes } = play([
      pointer('down', 100, 100, { on: mark }),
      pointer('move', 110, 120),
      pointer('up', 111, 121),
    ]);
    const moves = wishes.filter((w) => w.kind === 'move-point');
    expect(moves).toEqual([
      { kind: 'move-point', point: mark, to: { x: 112, y: 118 }, last: false },
      { kind: 'move-point', point: mark, to: { x: 113, y: 119 }, last: true },
    ]);
    expect(wishes.at(-1)).toEqual({ kind: 'loupe', at: null });
  });

  test('a press on a mark selects it and moves it by nothing', () => {
    const { wishes } = play([pointer('down', 100, 100, { on: mark }), pointer('up', 101, 100)]);
    expect(kinds(wishes)).toEqual(['select', 'loupe', 'loupe']);
  });

  test('a cancelled drag is let go, not made', () => {
    const { wishes, hand } = play([
      pointer('down', 100, 100, { on: mark }),
      pointer('move', 150, 100),
      pointer('cancel', 150, 100),
    ]);
    expect(kinds(wishes)).toContain('let-go');
    expect(wishes.some((w) => w.kind === 'move-point' && w.last)).toBe(false);
    expect(hand).toEqual(IDLE);
  });

  test('the second button, or the main one in grey mode, sets the window', () => {
    const drag = (button: Pointer['button']) => [pointer('down', 0, 0, { button }), pointer('move', 7, -3)];
    const wanted = [{ kind: 'window', dx: 7, dy: -3 }];
    expect(play(drag('second')).wishes).toEqual(wanted);
    expect(play(drag('main'), { ...setting, windowing: true }).wishes).toEqual(wanted);
  });

  test('while something is to be placed, a press beside a mark that is there places; a drag still moves that mark', () => {
    const placing: Setting = { ...setting, placing: true, placesOn: (p) => p.key !== 'own' };
    const press = (on: typeof mark) =>
      play([pointer('down', 100, 100, { on }), pointer('up', 100, 100)], placing).wishes;
    expect(press(mark)).toContainEqual({ kind: 'place', at: { x: 100, y: 100 } });
    expect(kinds(press({ ...mark, key: 'own' }))).not.toContain('place');
    const dragged = [pointer('down', 100, 100, { on: mark }), pointer('move', 130, 100), pointer('up', 130, 100)];
    expect(kinds(play(dragged, placing).wishes)).toContain('move-point');
    expect(kinds(play(dragged, placing).wishes)).not.toContain('place');
  });

  test('with the space bar held even a mark is not grabbed', () => {
    const { wishes } = play([pointer('down', 0, 0, { on: mark, hand: true }), pointer('move', 4, 4)]);
    expect(wishes).toEqual([{ kind: 'pan', dx: 4, dy: 4 }]);
  });

  test('two fingers zoom by the change of their distance about their middle', () => {
    const touch = { device: 'touch' } as const;
    const { wishes } = play([
      pointer('down', 100, 100, touch),
      pointer('down', 200, 100, { ...touch, id: 2 }),
      pointer('move', 300, 100, { ...touch, id: 2 }),
    ]);
    expect(wishes.filter((w) => w.kind !== 'loupe')).toEqual([
      { kind: 'pan', dx: 50, dy: 0 },
      { kind: 'zoom', factor: 2, at: { x: 200, y: 100 } },
    ]);
  });

  test('a second finger does not disturb a mark that is being moved', () => {
    const touch = { device: 'touch' } as const;
    const { hand } = play([
      pointer('down', 100, 100, { ...touch, on: mark }),
      pointer('move', 140, 100, touch),
      pointer('down', 300, 300, { ...touch, id: 2 }),
    ]);
    expect(hand.is).toBe('moving');
  });

  test('a finger lifted from a pinch leaves the other one panning', () => {
    const touch = { device: 'touch' } as const;
    const { wishes, hand } = play([
      pointer('down', 100, 100, touch),
      pointer('down', 200, 100, { ...touch, id: 2 }),
      pointer('up', 100, 100, touch),
      pointer('move', 210, 105, { ...touch, id: 2 }),
    ]);
    expect(hand.is).toBe('panning');
    expect(wishes.at(-1)).toEqual({ kind: 'pan', dx: 10, dy: 5 });
  });

  test('a finger or pen aims under the loupe while placing, and places where it lifts', () => {
    for (const device of ['touch', 'pen'] as const) {
      const { wishes, hand } = play(
        [pointer('down', 50, 50, { device }), pointer('move', 90, 62, { device }), pointer('up', 91, 63, { device })],
        { ...setting, placing: true },
      );
      expect(wishes).toEqual([
        { kind: 'loupe', at: { x: 50, y: 50 } },
        { kind: 'loupe', at: { x: 90, y: 62 } },
        { kind: 'place', at: { x: 91, y: 63 } },
        { kind: 'loupe', at: null },
      ]);
      expect(hand).toEqual(IDLE);
    }
  });

  test('a second finger while aiming pinches and places nothing', () => {
    const touch = { device: 'touch' } as const;
    const { wishes, hand } = play(
      [
        pointer('down', 100, 100, touch),
        pointer('down', 200, 100, { ...touch, id: 2 }),
        pointer('move', 240, 100, { ...touch, id: 2 }),
        pointer('up', 240, 100, { ...touch, id: 2 }),
        pointer('up', 100, 100, touch),
      ],
      { ...setting, placing: true },
    );
    expect(kinds(wishes)).toEqual(['loupe', 'loupe', 'pan', 'zoom']);
    expect(hand).toEqual(IDLE);
  });

  test('the nearest point within reach is grabbed, none beyond it', () => {
    const at = (x: number): { at: Place; name: number } => ({ at: { x, y: 0 }, name: x });
    expect(pointUnder([at(5), at(2), at(30)], { x: 0, y: 0 }, 12)?.name).toBe(2);
    expect(pointUnder([at(13)], { x: 0, y: 0 }, 12)).toBeNull();
  });
});
