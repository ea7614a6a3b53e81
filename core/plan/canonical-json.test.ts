import fc from 'fast-check';
import { expect, test } from 'vitest';
import { canonicalJson } from './canonical-json.ts';

test('PLAN-10 the order in which an object was put together does not show', () => {
  expect(canonicalJson({ b: 1, a: [{ d: null, c: 'x' }] })).toBe('{"a":[{"c":"x","d":null}],"b":1}');
  expect(canonicalJson({ a: [{ c: 'x', d: null }], b: 1 })).toBe('{"a":[{"c":"x","d":null}],"b":1}');
});

test('PLAN-10 negative zero, absent fields and numbers that are none', () => {
  expect(canonicalJson({ z: -0, gone: undefined })).toBe('{"z":0}');
  expect(() => canonicalJson({ a: Number.NaN })).toThrow();
  expect(() => canonicalJson({ a: () => 1 })).toThrow();
});

test('PLAN-10 any JSON value is read back the same, and its own text is its fixed point', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (value) => {
      const text = canonicalJson(value);
      expect(canonicalJson(JSON.parse(text))).toBe(text);
      expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
    }),
  );
});
