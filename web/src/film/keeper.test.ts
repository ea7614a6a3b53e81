import { describe, expect, test } from 'vitest';
import { keeper } from './keeper.ts';

describe('films kept in memory', () => {
  test('all that are shown, and of the others the last few that were asked for', () => {
    const shelf = keeper<string>(1);
    const holds = ['a', 'b', 'c', 'd'].map((name) => {
      const letGo = shelf.hold(name);
      shelf.take(name, () => name);
      return letGo;
    });
    expect(shelf.names()).toEqual(['a', 'b', 'c', 'd']);
    for (const letGo of holds.slice(0, 3)) letGo();
    expect(shelf.names()).toEqual(['c', 'd']);
  });

  test('a thing is made once while it is kept, and anew after it was let go', () => {
    const shelf = keeper<number>(1);
    let made = 0;
    const take = (name: string) => shelf.take(name, () => ++made);
    expect([take('a'), take('a'), take('b'), take('a')]).toEqual([1, 1, 2, 3]);
  });

  test('two that show the same film hold it until both have let go, and letting go twice counts once', () => {
    const shelf = keeper<string>(0);
    const [one, other] = [shelf.hold('a'), shelf.hold('a')];
    shelf.take('a', () => 'a');
    one();
    one();
    expect(shelf.names()).toEqual(['a']);
    other();
    expect(shelf.names()).toEqual([]);
  });
});
