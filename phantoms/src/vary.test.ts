import { describe, expect, test } from 'vitest';
import { parseVary, VARY_HELP } from './vary.ts';

describe('--vary', () => {
  test('reads flags, numbers and names', () => {
    const got = parseVary(['ideal=yes', 'side=left', 'mag=1.2', 'rotation=-5', 'hardware=staple', 'bits=14']);
    expect(got.ok && got.value).toEqual({
      ideal: true,
      side: 'left',
      mag: 1.2,
      rotation: -5,
      hardware: 'staple',
      bits: 14,
    });
  });

  test('nothing given is nothing chosen', () => {
    const got = parseVary([]);
    expect(got.ok && got.value).toEqual({});
  });

  test.each([
    ['colour=red', 'unknown-variation'],
    ['toString=1', 'unknown-variation'],
    ['mag=3', 'variation-out-of-range'],
    ['mag=', 'variation-out-of-range'],
    ['mag', 'variation-out-of-range'],
    ['mag=1.1=2', 'variation-out-of-range'],
    ['side=both', 'variation-out-of-range'],
    ['ideal=maybe', 'variation-out-of-range'],
    ['rotation=NaN', 'variation-out-of-range'],
  ])('refuses %s and says what is accepted', (text, code) => {
    const got = parseVary([text]);
    expect(got.ok ? null : got.reason.code).toBe(code);
    expect(got.ok ? '' : got.reason.mend).toMatch(/one of/);
  });

  test('refuses a name given twice', () => {
    const got = parseVary(['side=left', 'side=right']);
    expect(got.ok ? null : got.reason.code).toBe('variation-twice');
  });

  test('the help names every variation once', () => {
    const names = VARY_HELP.split('\n').map((line) => line.trim().split('=')[0]);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toContain('jointline');
    expect(names.length).toBeGreaterThan(20);
  });
});
