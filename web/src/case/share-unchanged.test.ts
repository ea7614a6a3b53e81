import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shareUnchanged } from './share-unchanged.ts';

const plain = fc.jsonValue({ maxDepth: 4 });

describe('sharing what did not change', () => {
  test('the result always equals the new value', () => {
    fc.assert(
      fc.property(plain, plain, (before, next) => {
        expect(shareUnchanged(before, next)).toEqual(next);
      }),
    );
  });

  test('an equal copy gives back the old value itself', () => {
    fc.assert(
      fc.property(plain, (value) => {
        // Through JSON first: it knows no negative zero.
        const before: unknown = JSON.parse(JSON.stringify(value));
        expect(shareUnchanged(before, JSON.parse(JSON.stringify(value)))).toBe(before);
      }),
    );
  });

  test('of a list with one changed item the others stay what they were', () => {
    const before = [{ a: 1 }, { a: 2 }, { a: 3 }];
    const next = shareUnchanged(before, [{ a: 1 }, { a: 5 }, { a: 3 }]);
    expect(next[0]).toBe(before[0]);
    expect(next[1]).toEqual({ a: 5 });
    expect(next[2]).toBe(before[2]);
  });

  test('a key called __proto__ is a key like any other', () => {
    const next = JSON.parse('{"__proto__":null,"a":1}') as object;
    expect(Object.keys(shareUnchanged({} as object, next))).toEqual(['__proto__', 'a']);
  });

  test('a key that went away is gone', () => {
    expect(shareUnchanged({ a: 1, b: 2 } as object, { a: 1 })).toEqual({ a: 1 });
    expect(Object.keys(shareUnchanged({ a: 1, b: undefined } as object, { a: 1, c: undefined }))).toEqual(['a', 'c']);
  });
});
