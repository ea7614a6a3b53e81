import { describe, expect, test } from 'vitest';
import { counted, money, pct } from './shares.ts';

/** Without the hard space before the sign. */
const read = (share: number): string => pct(share).replace('\u00a0', ' ');

describe('shares and amounts for reading', () => {
  test('whole in the middle, to a tenth at the ends, where a tenth matters', () => {
    expect([0.005, 0.062, 0.244, 0.687, 0.9906, 0.99].map(read)).toEqual([
      '0.5 %',
      '6.2 %',
      '24 %',
      '69 %',
      '99.1 %',
      '99 %',
    ]);
  });

  test('what is not quite none is never told as none, nor what is not quite all as all', () => {
    expect([0, 0.0003, 0.9996, 1].map(read)).toEqual(['0 %', 'under 0.1 %', 'over 99.9 %', '100 %']);
  });

  test('money without cents where it has none, and things with their plural', () => {
    expect(money(3120, 'EUR')).toBe('EUR 3,120');
    expect(money(12.5, 'EUR')).toBe('EUR 12.50');
    expect([counted(1, 'set'), counted(2000, 'knee')]).toEqual(['1 set', '2,000 knees']);
  });
});
