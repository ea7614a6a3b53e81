import { describe, expect, test } from 'vitest';
import { finish, retold } from './steps.ts';

function* counting(to: number): Generator<number, string, unknown> {
  for (let n = 1; n <= to; n++) yield n;
  return `counted to ${to}`;
}

describe('long work in steps', () => {
  test('is run to its answer, every step told in its order', () => {
    const told: number[] = [];
    expect(finish(counting(3), (n) => told.push(n))).toBe('counted to 3');
    expect(told).toEqual([1, 2, 3]);
    expect(finish(counting(0))).toBe('counted to 0');
  });

  test('goes on as a part of larger work in its words, with the same answer, and no step is made before it is asked for', () => {
    let made = 0;
    const steps = retold(counting(2), (n) => {
      made += 1;
      return `${n} of 2`;
    });
    expect(made).toBe(0);
    expect(steps.next()).toEqual({ done: false, value: '1 of 2' });
    expect(made).toBe(1);
    expect([...retold(counting(2), (n) => -n)]).toEqual([-1, -2]);
    expect(finish(retold(counting(2), String))).toBe('counted to 2');
  });
});
