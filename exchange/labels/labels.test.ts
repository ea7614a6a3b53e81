import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import identifiers from './application-identifiers.json' with { type: 'json' };
import { gs1CheckDigit, readGs1 } from './gs1.ts';
import { hibcCheckCharacter } from './hibc.ts';
import { fullYear } from './label-dates.ts';
import { readDictionary } from './make-application-identifiers.ts';
import { readLabel } from './read-label.ts';

const YEAR = 2026;
const read = (text: string) => {
  const r = readLabel(text, YEAR);
  return r.ok ? r.value : r.reason.code;
};

describe('GS1', () => {
  test('the table of identifiers is what the dictionary gives', () => {
    const text = readFileSync(new URL('testdata/gs1-syntax-dictionary.txt', import.meta.url), 'utf8');
    expect(identifiers).toEqual(readDictionary(text));
    expect(identifiers.length).toBeGreaterThan(200);
  });

  // Published examples: gs1.org check-digit page, gs1india.org, gs1.se, FDA sample, BWIPP manual.
  test.each([
    ['629104150021', 3],
    ['890400021003', 7],
    ['730001100001', 7],
    ['5102222223333', 6],
    ['0952123454321', 3],
  ])('check digit of %s is %i (published)', (body, digit) => {
    expect(gs1CheckDigit(body)).toBe(digit);
  });

  test('reads the sample of the FDA', () => {
    expect(read('(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234')).toEqual({
      carrier: 'gs1',
      device: '51022222233336',
      lot: 'A213B1',
      serial: '1234',
      expires: '2015-07-07',
      made: '2014-12-31',
      others: [],
      warnings: [],
    });
  });

  // Strings of the GS1 syntax engine's own tests.
  test.each([
    ['(01)12312312312333(10)ABC123(99)XYZ', 'XYZ'],
    [']d2011231231231233310ABC123\u001d99TESTING', 'TESTING'],
    [']C1011231231231233310ABC123\u001d99TESTING', 'TESTING'],
    [']Q3011231231231233310ABC123\u001d99TESTING\u001d', 'TESTING'],
  ])('reads %j of the syntax engine', (text, internal) => {
    expect(read(text)).toMatchObject({
      device: '12312312312333',
      lot: 'ABC123',
      others: [{ code: '99', value: internal }],
    });
  });

  test('day 00 is the last day of the month, leap years included', () => {
    const expires = (d: string) => {
      const r = read(`(01)51022222233336(17)${d}(10)A`);
      return typeof r === 'string' ? r : r.expires;
    };
    expect(expires('130200')).toBe('2013-02-28');
    expect(expires('160200')).toBe('2016-02-29');
    expect(expires('161301')).toBe('gs1-date');
  });

  test('two-digit years fall within 49 years back and 50 ahead (checked values)', () => {
    expect([fullYear(75, 2025), fullYear(76, 2025), fullYear(0, 2080)]).toEqual([2075, 1976, 2100]);
  });

  test('a wrong check digit, an unknown identifier and a wrong length are refused by name', () => {
    expect(read('(01)51022222233337(10)A')).toBe('gs1-check-digit');
    expect(read('(05)51022222233337')).toBe('gs1-unknown');
    expect(read('(01)5102222223333')).toBe('gs1-length');
  });

  test('lower case stays lower case and split labels read as printed ones', () => {
    const lot = fc.string({ unit: fc.constantFrom(...'abcXYZ019-/'), minLength: 1, maxLength: 14 });
    fc.assert(
      fc.property(lot, lot, (a, b) => {
        const scanned = readGs1(`0151022222233336${'10'}${a}\u001d21${b}`, YEAR);
        const printed = readGs1(`(01)51022222233336(10)${a}(21)${b}`, YEAR);
        expect(scanned).toEqual(printed);
        expect(scanned.ok && scanned.value).toMatchObject({ lot: a, serial: b });
      }),
    );
  });
});

describe('HIBC', () => {
  // ANSI/HIBC 2.6 appendix B and 2.2.1.1; HIBCC guide; older copy.
  test.each([
    ['+A123BJC5D6E71', 'G'],
    ['+A99912345/$$52001510X3', '3'],
    ['+A999ABC1230', 'V'],
    ['+A1234BJC5D6E71', 'K'],
  ])('check character of %s is %s (published)', (body, check) => {
    expect(hibcCheckCharacter(body)).toBe(check);
  });

  test.each([
    ['+A123BJC5D6E71G', { device: 'A123BJC5D6E71' }],
    [
      '+A99912349/$10X3/16D20111231/14D20200131/Q500Z',
      { device: 'A99912349', lot: '10X3', made: '2011-12-31', expires: '2020-01-31', quantity: 500 },
    ],
    ['+A99912345/$$52001510X33', { device: 'A99912345', lot: '10X3', expires: '2020-01-15' }],
    ['+A99912345/$$52001510X3/16D20111212/S77DEFG457', { lot: '10X3', serial: '77DEFG45', made: '2011-12-12' }],
    [
      '+A99912345/$$812710X3/16D20111212/14D20200906/S77DEFG453',
      { lot: '10X3', quantity: 12, expires: '2020-09-06', serial: '77DEFG45' },
    ],
    [
      '+A123ABCDEFGHI1234567891/$$420020216LOT123456789012345/SXYZ456789012345678/16D20130202$',
      { device: 'A123ABCDEFGHI1234567891', lot: 'LOT123456789012345', expires: '2020-02-02', made: '2013-02-02' },
    ],
    [']d1+A99978712011/$26485266/16D20240626/Q10S', { device: 'A99978712011', lot: '26485266', quantity: 10 }],
  ])('reads %s (samples of the standard and of public test suites)', (text, expected) => {
    expect(read(text)).toMatchObject({ carrier: 'hibc', ...expected });
  });

  test('the first digit after $$ belongs to the month', () => {
    const body = '+A99912345/$$0626LOT1';
    expect(read(body + hibcCheckCharacter(body))).toMatchObject({ expires: '2026-06-30', lot: 'LOT1' });
  });

  test('one character changed is caught', () => {
    const text = '+A99912345/$$52001510X33';
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: text.length - 2 }),
        fc.constantFrom(...'0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'),
        (at, c) => {
          fc.pre(text[at] !== c);
          expect(read(text.slice(0, at) + c + text.slice(at + 1))).toBe('hibc-check');
        },
      ),
    );
  });
});

describe('any label', () => {
  test('nothing pasted throws', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'+$/0123456789AZ()\u001d]d2C1') })),
        (text) => {
          const r = readLabel(text, YEAR);
          expect(typeof r.ok).toBe('boolean');
          if (r.ok)
            for (const d of [r.value.expires, r.value.made])
              if (d !== undefined) expect(d).toMatch(/^\d{4}-\d{2}-\d{2}$/);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('an unknown family is refused with the way out', () => {
    expect(read('REF 1234')).toBe('label-unknown');
  });
});
