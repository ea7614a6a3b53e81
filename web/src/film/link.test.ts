import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anchorOn } from './anchor.ts';
import { leadChannel } from './lead.ts';
import { follow, poseOf } from './link.ts';
import { fit, pan, toScreen, zoom } from './viewport.ts';

const size = { columns: 1000, rows: 2000, aspect: 1 };
const area = { width: 500, height: 600 };
const one = { at: { x: 480, y: 900 }, mmPerPx: 0.2 };
const other = { at: { x: 300, y: 1500 }, mmPerPx: 0.35 };

describe('VIEW-6 linked films', () => {
  test('by view: the anchor of the other film lies at the same place, and a millimetre is as long, whatever was done', () => {
    const step = fc.double({ min: -200, max: 200, noNaN: true });
    fc.assert(
      fc.property(
        step,
        step,
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        fc.boolean(),
        (dx, dy, factor, mirrored) => {
          const led = pan(zoom(fit(area, size, false), factor, { x: 100, y: 80 }, size), { dx, dy }, size);
          const view = { ...fit(area, size, mirrored), turnDeg: 5 };
          const next = follow(view, poseOf(led, one), { held: other, sideways: true });
          const [a, b] = [toScreen(led, one.at), toScreen(next, other.at)];
          expect(b.x).toBeCloseTo(a.x, 6);
          expect(b.y).toBeCloseTo(a.y, 6);
          expect(other.mmPerPx / next.scale).toBeCloseTo(one.mmPerPx / led.scale, 9);
        },
      ),
    );
  });

  test('by date: heights and size are shared, sideways each film keeps its own millimetres', () => {
    const led = pan(fit(area, size, false), { dx: 70, dy: 33 }, size);
    const view = pan(fit(area, size, false), { dx: -40, dy: 5 }, size);
    const next = follow(view, poseOf(led, one), { held: other, sideways: false });
    expect(toScreen(next, other.at).y).toBeCloseTo(toScreen(led, one.at).y, 9);
    const mmOff = (v: typeof view) => ((toScreen(v, other.at).x - 250) * other.mmPerPx) / v.scale;
    expect(mmOff(next)).toBeCloseTo(mmOff(view), 9);
  });

  test('the anchor is the middle of its two marks of that side, and none where one of them is lacking', () => {
    const mark = (landmark: 'medial-condyle-distal' | 'lateral-condyle-distal', x: number) =>
      ({ landmark, side: 'right', film: 'ap', points: [{ x, y: 10 }], how: 'by-hand' }) as const;
    const both = [mark('medial-condyle-distal', 100), mark('lateral-condyle-distal', 300)];
    expect(anchorOn('joint-line', both, { film: 'ap', side: 'right' })).toEqual({ x: 200, y: 10 });
    expect(anchorOn('joint-line', both, { film: 'ap', side: 'left' })).toBeNull();
    expect(anchorOn('joint-line', both.slice(1), { film: 'ap', side: 'right' })).toBeNull();
  });

  test('every film that listens hears each move, and none after it left', () => {
    const channel = leadChannel();
    const heard: number[] = [];
    const stop = channel.listen((lead) => heard.push(lead.pose.mmPerScreenPx));
    const lead = (mmPerScreenPx: number) => ({
      pane: 'a',
      view: 'ap',
      takenOn: undefined,
      pose: { mmPerScreenPx, anchor: { x: 0, y: 0 } },
    });
    channel.say(lead(1));
    stop();
    channel.say(lead(2));
    expect(heard).toEqual([1]);
    expect(channel.last()?.pose.mmPerScreenPx).toBe(2);
  });
});
