import { describe, expect, test } from 'vitest';
import { orderBy } from './order-by.ts';
import { contentsOf } from './set-contents.ts';
import type { SetList, StockItem } from './set-list.ts';

const LIST: SetList = {
  format: 'gapline-sets',
  version: '1.0',
  id: 'x',
  name: 'X',
  catalogue: 'example',
  invented: true,
  currency: 'EUR',
  trayCost: 10,
  sets: ['A', 'B'].map((ref) => ({
    ref,
    name: `Set ${ref}`,
    parts: [
      { ref: 'P1', count: 2 },
      { ref: 'P2', count: 1 },
    ],
    owner: 'own-shelf',
    trays: 1,
    fee: 0,
    leadDays: 0,
  })),
};
const lot = (ref: string, expires: string, more: Partial<StockItem> = {}): StockItem => ({
  ref,
  lot: `L-${ref}`,
  expires,
  count: 1,
  ...more,
});

describe('what lies in a set', () => {
  test('KIT-7 without a stock list every set holds what the list says', () => {
    const { ofSet, loose, notes } = contentsOf({ setList: LIST, stock: null, usedOn: '2026-12-14' });
    expect(ofSet.map((p) => Object.fromEntries(p))).toEqual([
      { P1: 2, P2: 1 },
      { P1: 2, P2: 1 },
    ]);
    expect([loose.size, notes]).toEqual([0, []]);
  });

  test('KIT-7 a lot that is expired on the day of surgery is not there, and is told; its last day still counts', () => {
    const stock = [
      lot('P1', '2026-12-13', { set: 'A' }),
      lot('P1', '2026-12-14', { set: 'A' }),
      lot('P2', '2028-01-01', { set: 'A' }),
    ];
    const { ofSet, notes } = contentsOf({ setList: LIST, stock, usedOn: '2026-12-14' });
    expect(Object.fromEntries(ofSet[0] ?? [])).toEqual({ P1: 1, P2: 1 });
    expect(Object.fromEntries(ofSet[1] ?? [])).toEqual({ P1: 2, P2: 1 });
    expect(notes.map((n) => n.message)).toEqual([
      'Expired by 2026-12-14 and counted as not there: P1 lot L-P1 in A (2026-12-13).',
      'Set A is not whole in the stock: P1 1 of 2.',
    ]);
  });

  test('KIT-7 without a day of surgery nothing counts as expired', () => {
    const stock = [lot('P1', '1999-01-01', { set: 'A', count: 2 }), lot('P2', '1999-01-01', { set: 'A' })];
    expect(contentsOf({ setList: LIST, stock, usedOn: null }).notes).toEqual([]);
  });

  test('KIT-7 loose lots are always in the room; lots of unknown sets are told and not counted', () => {
    const stock = [lot('P9', '2030-01-01', { count: 3 }), lot('P1', '2030-01-01', { set: 'Q' })];
    const { loose, notes } = contentsOf({ setList: LIST, stock, usedOn: '2026-12-14' });
    expect(Object.fromEntries(loose)).toEqual({ P9: 3 });
    expect(notes[0]?.message).toBe('The stock names sets that the list does not hold: Q. Their lots are not counted.');
  });
});

describe('order by', () => {
  // Weekdays checked against the calendar: 14 December 2026 is a Monday.
  test.each([
    ['2026-12-14', 0, '2026-12-11'],
    ['2026-12-14', 3, '2026-12-08'],
    ['2026-12-14', 5, '2026-12-04'],
    ['2026-12-16', 1, '2026-12-14'],
    ['2026-12-12', 1, '2026-12-10'],
    ['2027-01-04', 1, '2026-12-31'],
  ])('KIT-8 surgery on %s, %i working days: ordered by %s', (surgery, lead, day) => {
    expect(orderBy(surgery, lead)).toBe(day);
  });

  test('KIT-8 holidays are given as data', () => {
    expect(orderBy('2027-01-04', 1, ['2027-01-01', '2026-12-31'])).toBe('2026-12-29');
  });

  test('KIT-8 a day that is none gives none', () => {
    expect(orderBy('2026-02-30', 1)).toBeNull();
  });

  test('KIT-8 is a working day and moves back by one working day for each day of lead', () => {
    for (let lead = 0; lead < 40; lead++) {
      const day = orderBy('2026-12-14', lead) ?? '';
      expect([0, 6]).not.toContain(new Date(`${day}T00:00:00Z`).getUTCDay());
      expect((orderBy('2026-12-14', lead + 1) ?? '') < day).toBe(true);
    }
  });
});
