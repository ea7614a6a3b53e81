import { describe, expect, test } from 'vitest';
import { meanAndSd, normalDraws } from './normal-draws.ts';
import { cannot, type Outcome, ok } from './outcome.ts';
import { propagatedSd, propagatedShares } from './propagate.ts';

/** Inputs with a spread each, as the propagation moves them. */
function inputs(values: readonly number[], sds: readonly number[]) {
  const now = [...values];
  const moves = sds.map((sd, i) => ({
    move: (times: number) => {
      now[i] = (values[i] ?? 0) + times * sd;
    },
  }));
  return { now, moves };
}

describe('propagated spread', () => {
  test('of a sum of weighted inputs is exact', () => {
    const { now, moves } = inputs([1, 2, 3], [0.5, 0.2, 0.1]);
    const sum = () => ok(2 * (now[0] ?? 0) - (now[1] ?? 0) + 4 * (now[2] ?? 0));
    expect(propagatedSd(sum, moves)).toBeCloseTo(Math.hypot(1, 0.2, 0.4), 14);
  });
  test('input by input: each with its sign and weight', () => {
    const { now, moves } = inputs([1, 2, 3], [0.5, 0.2, 0.1]);
    const sum = () => ok(2 * (now[0] ?? 0) - (now[1] ?? 0) + 4 * (now[2] ?? 0));
    const shares = propagatedShares(sum, moves) ?? [];
    [1, -0.2, 0.4].forEach((share, i) => {
      expect(shares[i]).toBeCloseTo(share, 12);
    });
    expect(propagatedShares(() => cannot({ code: 'none', message: 'none' }), moves)).toBeNull();
  });
  test('puts every input back', () => {
    const { now, moves } = inputs([1, 2], [0.5, 0.2]);
    propagatedSd(() => ok((now[0] ?? 0) * (now[1] ?? 0)), moves);
    expect(now).toEqual([1, 2]);
  });
  test('of nothing uncertain is 0', () => expect(propagatedSd(() => ok(5), [])).toBe(0));
  test('is not known where a moved input gives no result', () => {
    const { now, moves } = inputs([0.1], [0.5]);
    const root = (): Outcome<number> =>
      (now[0] ?? 0) < 0 ? cannot({ code: 'negative', message: 'negative' }) : ok(Math.sqrt(now[0] ?? 0));
    expect(propagatedSd(root, moves)).toBeNull();
    expect(now).toEqual([0.1]);
  });
  test('agrees with 40 000 draws on an angle between two marked points', () => {
    const [x, y, sd] = [60, 25, 1.2];
    const { now, moves } = inputs([x, y], [sd, sd]);
    const angle = () => ok(Math.atan2(now[1] ?? 0, now[0] ?? 0));
    const stated = propagatedSd(angle, moves) ?? Number.NaN;
    const next = normalDraws(11);
    const drawn = Array.from({ length: 40_000 }, () => Math.atan2(y + sd * next(), x + sd * next()));
    expect(stated / meanAndSd(drawn).sd).toBeGreaterThan(0.98);
    expect(stated / meanAndSd(drawn).sd).toBeLessThan(1.02);
  });
});
