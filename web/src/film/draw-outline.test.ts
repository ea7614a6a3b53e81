import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DrawEvent, type Drawing, type DrawTurn, drawStep, NOTHING_DRAWN } from './draw-outline.ts';
import { crossesItself, loopIn, simplified } from './outline-shape.ts';
import type { Place } from './viewport.ts';

const fine = { reach: 8, jitter: 1 };
const at = (x: number, y: number): Place => ({ x, y });
const press = (x: number, y: number): DrawEvent => ({ kind: 'press', at: at(x, y) });

/** Plays a row of events; gives the last turn. */
function play(events: readonly DrawEvent[], from: Drawing = NOTHING_DRAWN): DrawTurn {
  let turn: DrawTurn = { drawing: from, closed: null, said: null };
  for (const event of events) turn = drawStep(turn.drawing, event, fine);
  return turn;
}

const sweep = (line: readonly Place[]): DrawEvent[] => [
  { kind: 'stroke', phase: 'begin', at: line[0]! },
  ...line.slice(1, -1).map((p): DrawEvent => ({ kind: 'stroke', phase: 'on', at: p })),
  { kind: 'stroke', phase: 'end', at: line.at(-1)! },
];
const circle = (degrees: number): Place[] =>
  Array.from({ length: degrees / 5 + 1 }, (_, i) => {
    const a = (i * 5 * Math.PI) / 180;
    return at(100 + 40 * Math.cos(a), 100 + 40 * Math.sin(a));
  });
const area = (outline: readonly Place[]): number =>
  Math.abs(
    outline.reduce((sum, p, i) => {
      const q = outline[(i + 1) % outline.length]!;
      return sum + (p.x * q.y - q.x * p.y) / 2;
    }, 0),
  );

describe('an outline drawn on a film', () => {
  test('points pressed one by one are closed by a press on the first', () => {
    const open = play([press(0, 0), press(50, 0), press(50, 40)]);
    expect(open.drawing.points).toHaveLength(3);
    expect(play([press(3, 2)], open.drawing).closed).toEqual([at(0, 0), at(50, 0), at(50, 40)]);
    expect(play([{ kind: 'close' }], open.drawing).drawing).toEqual(NOTHING_DRAWN);
  });

  test('two points, or three in one line, enclose nothing: it is said, and the points stay', () => {
    for (const points of [
      [press(0, 0), press(50, 0)],
      [press(0, 0), press(50, 0), press(90, 0)],
    ]) {
      const turn = play([...points, { kind: 'close' }]);
      expect(turn.closed).toBeNull();
      expect(turn.said).toContain('Three points');
      expect(turn.drawing.points).toHaveLength(points.length);
    }
    expect(play([{ kind: 'close' }])).toEqual({ drawing: NOTHING_DRAWN, closed: null, said: null });
  });

  test('an outline that crosses itself is not taken', () => {
    const bow = [press(0, 0), press(50, 50), press(50, 0), press(0, 50)];
    expect(play([...bow, { kind: 'close' }]).said).toContain('crosses itself');
  });

  test('Backspace takes back one point after the other, and stops at none', () => {
    const two = play([press(0, 0), press(50, 0), { kind: 'back' }]);
    expect(two.drawing.points).toEqual([at(0, 0)]);
    expect(play([{ kind: 'back' }, { kind: 'back' }], two.drawing).drawing.points).toEqual([]);
  });

  test('a freehand circle is whole when the hand is lifted, of few points and true area', () => {
    const { closed } = play(sweep(circle(355)));
    expect(closed!.length).toBeLessThan(30);
    expect(Math.abs(area(closed!) / (Math.PI * 1600) - 1)).toBeLessThan(0.04);
  });

  test('a hand that runs past its own beginning leaves no loose ends', () => {
    const spiral = circle(395).map((p, i) => at(p.x + i * 0.05, p.y));
    const { closed } = play(sweep(spiral));
    expect(closed).not.toBeNull();
    expect(crossesItself(closed!)).toBe(false);
    expect(Math.abs(area(closed!) / (Math.PI * 1600) - 1)).toBeLessThan(0.08);
  });

  test('a flick encloses nothing and leaves nothing behind; a cancelled line neither', () => {
    expect(play(sweep([at(0, 0), at(20, 0), at(40, 0)]))).toMatchObject({ closed: null, drawing: NOTHING_DRAWN });
    const begun = sweep(circle(90)).slice(0, -1);
    const lost = play([press(0, 0), ...begun, { kind: 'stroke', phase: 'cancel', at: at(0, 0) }]);
    expect(lost.drawing).toEqual({ points: [at(0, 0)], lineFrom: null });
  });

  test('a line drawn after pressed points goes on from them and stays open', () => {
    const turn = play([press(0, 0), press(50, 0), ...sweep([at(60, 10), at(61, 30), at(60, 50)])]);
    expect(turn.closed).toBeNull();
    expect(turn.drawing.points.slice(0, 2)).toEqual([at(0, 0), at(50, 0)]);
    expect(turn.drawing.points.at(-1)).toEqual(at(60, 50));
  });
});

describe('a hand drawn line', () => {
  const lines = fc.array(fc.record({ x: fc.integer({ min: 0, max: 300 }), y: fc.integer({ min: 0, max: 300 }) }), {
    minLength: 2,
    maxLength: 40,
  });
  const off = (p: Place, line: readonly Place[]): number =>
    Math.min(
      ...line.slice(1).map((b, i) => {
        const a = line[i]!;
        const long = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
        const t =
          long === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / long));
        return Math.hypot(a.x + t * (b.x - a.x) - p.x, a.y + t * (b.y - a.y) - p.y);
      }),
    );

  test('stays within the tolerance when it is thinned out, keeps its ends, and gains no point', () => {
    fc.assert(
      fc.property(lines, fc.integer({ min: 0, max: 30 }), (line, tolerance) => {
        const thin = simplified(line, tolerance);
        expect(thin.length).toBeLessThanOrEqual(line.length);
        expect([thin[0], thin.at(-1)]).toEqual([line[0], line.at(-1)]);
        for (const p of line) expect(off(p, thin)).toBeLessThanOrEqual(tolerance + 1e-9);
      }),
      { numRuns: 100 },
    );
  });

  test('without a crossing is left as it is', () => {
    const line = [at(0, 0), at(10, 0), at(10, 10), at(0, 10)];
    expect(loopIn(line)).toBe(line);
  });
});
