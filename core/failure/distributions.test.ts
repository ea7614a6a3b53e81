import { describe, expect, test } from 'vitest';
import { CAUSE_DISTRIBUTIONS, COMMON_PRACTICE } from './distributions.ts';

const shares = (cause: 'loosening' | 'instability' | 'wear' | 'infection') =>
  CAUSE_DISTRIBUTIONS.flatMap((d) => d.percent[cause] ?? []);
const between = (values: readonly number[], value: number) =>
  Math.min(...values) <= value && value <= Math.max(...values);

describe('published distributions of causes', () => {
  test('CAUSE-9 every row names its source, holds shares, and no row adds up to more than the whole', () => {
    for (const row of CAUSE_DISTRIBUTIONS) {
      const values = Object.values(row.percent);
      expect(values.every((v) => v > 0 && v < 100)).toBe(true);
      // Single series count a knee under more than one cause (Sharkey 2002 comes to 123.6 %).
      if (row.id !== 'sharkey-2002') expect(values.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(100.05);
      expect(row.source).not.toBe('');
    }
    expect(new Set(CAUSE_DISTRIBUTIONS.map((d) => d.id)).size).toBe(CAUSE_DISTRIBUTIONS.length);
  });

  test('CAUSE-9 what the trade takes for granted lies within what was published (plausibility; common practice, no source)', () => {
    const { loosening, painAndStiffness, instability, osteolysis } = COMMON_PRACTICE.percent;
    // About 40 %: the upper end of the series (39.9 % in 2003-12), not their middle.
    expect(Math.max(...shares('loosening'))).toBeGreaterThan(loosening - 1);
    expect(between(shares('instability'), instability)).toBe(true);
    expect(between(shares('wear'), osteolysis)).toBe(true);
    expect(loosening).toBeGreaterThan(painAndStiffness);
    expect(painAndStiffness).toBeGreaterThan(instability);
    // Together they leave 9 % for infection and the rest: it is a list of causes other than infection.
    expect(100 - loosening - painAndStiffness - instability - osteolysis).toBeLessThan(
      Math.min(...shares('infection')),
    );
  });

  test('CAUSE-9 the young are revised about twice as often as the old (common practice, no source)', () => {
    const { over75, under55 } = COMMON_PRACTICE.yearlyRevision;
    expect(under55 / over75).toBe(2);
    // 6.1 % revised within 15 years (New Zealand, all ages) is 0.42 % a year: both figures stand above that.
    const newZealand = 100 * (1 - (1 - 0.061) ** (1 / 15));
    expect(newZealand).toBeCloseTo(0.419, 3);
    expect(over75).toBeGreaterThan(newZealand);
  });
});
