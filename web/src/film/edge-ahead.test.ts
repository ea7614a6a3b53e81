import { describe, expect, test } from 'vitest';
import { EDGES, edgeAhead } from './edge-ahead.ts';
import { fit, toScreen } from './viewport.ts';

describe('VIEW-1 words at the edges', () => {
  test('name the edge that the columns truly run towards, mirrored and turned', () => {
    const size = { columns: 100, rows: 100, aspect: 1 };
    for (const mirrored of [false, true])
      for (const turnDeg of [0, 12, 90, 180, -90, -77]) {
        const v = { ...fit({ width: 400, height: 400 }, size, mirrored), turnDeg };
        const from = toScreen(v, { x: 0, y: 50 });
        const to = toScreen(v, { x: 99, y: 50 });
        const [dx, dy] = [to.x - from.x, to.y - from.y];
        const seen = Math.abs(dx) > Math.abs(dy) ? (dx > 0 ? 'right' : 'left') : dy > 0 ? 'bottom' : 'top';
        expect(EDGES[edgeAhead(v)]).toBe(seen);
      }
  });
});
