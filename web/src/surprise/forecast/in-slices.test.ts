import { describe, expect, test } from 'vitest';
import { inSlices, SLICE_MS } from './in-slices.ts';

/** A clock that the computation moves on by itself, and a list of what happened in which order. */
function bench(stepMs: number, steps: number) {
  const happened: string[] = [];
  let now = 0;
  let wanted = true;
  function* work(): Generator<number, string, unknown> {
    for (let i = 1; i <= steps; i++) {
      now += stepMs;
      yield i;
    }
    return 'answer';
  }
  const slices = {
    wanted: () => wanted,
    now: () => now,
    breathe: async () => {
      happened.push('breath');
    },
    tell: (progress: number) => happened.push(`told ${progress}`),
  };
  return { happened, work, slices, stop: () => (wanted = false) };
}

describe('a long computation in slices', () => {
  test('gives the answer of the computation, and breathes only when a slice is full', async () => {
    const b = bench(SLICE_MS / 2, 5);
    expect(await inSlices(b.work(), b.slices)).toBe('answer');
    expect(b.happened).toEqual(['told 2', 'breath', 'told 4', 'breath']);
  });

  test('a quick computation is never interrupted', async () => {
    const b = bench(0.1, 50);
    expect(await inSlices(b.work(), b.slices)).toBe('answer');
    expect(b.happened).toEqual([]);
  });

  test('what is no longer wanted ends at the next breath, without an answer', async () => {
    const b = bench(SLICE_MS, 1000);
    b.slices.breathe = async () => {
      b.happened.push('breath');
      if (b.happened.length > 5) b.stop();
    };
    expect(await inSlices(b.work(), b.slices)).toBeNull();
    expect(b.happened.length).toBeLessThan(10);
  });
});
