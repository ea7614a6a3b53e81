import { ANALYTE_IDS, analyte } from '@gapline/core/laboratory/analyte.ts';
import { toStandardUnit } from '@gapline/core/laboratory/unit.ts';
import { describe, expect, test } from 'vitest';
import { plainNumber } from './inputs.tsx';
import { labelText, shownLabel, typesSeparator } from './label-text.ts';
import { triKey } from './tri-keys.ts';
import { resultText, typedResult, unitsOf } from './typed-result.ts';
import { yearsBetween } from './years.ts';

describe('What is typed', () => {
  test('a result is taken apart into comparator, value and unit; a word stays a word', () => {
    expect(typedResult('25')).toEqual({ value: 25 });
    expect(typedResult('< 5 mg/L')).toEqual({ value: 5, comparator: '<', unit: 'mg/L' });
    expect(typedResult('2,4 mg/dL')).toEqual({ value: 2.4, unit: 'mg/dL' });
    expect(typedResult('-3')).toEqual({ value: -3 });
    expect(typedResult('positive')).toEqual({ value: 'positive' });
    for (const strip of ['++', '2+']) expect(typedResult(strip)).toEqual({ value: strip });
  });

  test('a result reads back as it was typed', () => {
    for (const text of ['25', '< 5', '> 600', '++', 'positive']) expect(resultText(typedResult(text))).toBe(text);
  });

  test('every unit that is offered for a test is read for that test', () => {
    for (const id of ANALYTE_IDS) {
      for (const unit of analyte(id).unit === null ? [] : unitsOf(id))
        expect([id, unit, toStandardUnit(id, 1, unit).ok]).toEqual([id, unit, true]);
    }
  });

  test('a plain number takes comma, point and true minus; anything else is none', () => {
    expect(['1,5', '1.5', '−2', ' 7 '].map(plainNumber)).toEqual([1.5, 1.5, -2, 7]);
    expect(['', 'abc', '1.2.3', '12 mg'].map(plainNumber)).toEqual([undefined, undefined, undefined, undefined]);
  });

  test('Y, N, U answer and go on; left and right step and stay; up and down only move', () => {
    expect(triKey('y', 'unknown')).toEqual({ answer: 'yes', move: 1 });
    expect(triKey('N', 'yes')).toEqual({ answer: 'no', move: 1 });
    expect(triKey('u', 'yes')).toEqual({ answer: 'unknown', move: 1 });
    expect(triKey('ArrowRight', 'yes')).toEqual({ answer: 'no', move: 0 });
    expect(triKey('ArrowLeft', 'yes')).toEqual({ answer: 'yes', move: 0 });
    expect(triKey('ArrowDown', 'no')).toEqual({ answer: null, move: 1 });
    expect(triKey('ArrowUp', 'no')).toEqual({ answer: null, move: -1 });
    expect([triKey('Tab', 'no'), triKey('Enter', 'no'), triKey('a', 'no')]).toEqual([null, null, null]);
  });

  test('the separator of a label is made visible in the box and goes to the reader unchanged', () => {
    const code = '01095011010209171719050810AB-123\u001d21456';
    expect(shownLabel(code)).not.toContain('\u001d');
    expect(labelText(shownLabel(code))).toBe(code);
    expect(typesSeparator({ key: ']', ctrlKey: true })).toBe(true);
    expect(typesSeparator({ key: ']', ctrlKey: false })).toBe(false);
  });

  test('age counts whole years, the birthday included, and is unknown where a day is none', () => {
    expect(yearsBetween('1950-06-15', '2026-06-14')).toBe(75);
    expect(yearsBetween('1950-06-15', '2026-06-15')).toBe(76);
    expect(yearsBetween('1950-02-30', '2026-06-15')).toBe(null);
    expect(yearsBetween('2027-01-01', '2026-01-01')).toBe(null);
  });
});
