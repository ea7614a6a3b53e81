import { describe, expect, test } from 'vitest';
import { evidenceFromLucentLines } from './evidence-from-lucent-lines.ts';
import { readWorkUp } from './read-work-up.ts';
import type { WorkUp } from './work-up.ts';

const found = (lines: WorkUp['lucentLines']) =>
  Object.fromEntries(evidenceFromLucentLines(lines).map((e) => [e.id, e.looked]));
const loose = 'lucent-line-progressive-or-complete';
const thin = 'lucent-line-thin-stable';
const seven = (mm: number) => Array.from({ length: 7 }, () => mm);

describe('the chart of lucent lines in the work-up', () => {
  test('WU-8 progress, or complete and 2 mm wide, is loosening whatever the rest shows', () => {
    expect(found({ femur: { widths: seven(0) }, 'tibia-ap': { widths: seven(2) } })).toEqual({
      [loose]: 'present',
      [thin]: 'absent',
    });
    expect(found({ patella: { widths: [0, 1, 0, 0, 0], progressing: 'yes' } })[loose]).toBe('present');
  });

  test('WU-8 thin lines that do not progress', () => {
    expect(found({ femur: { widths: [1, 0, 0, 0, 0, 0, 0], progressing: 'no' } })).toEqual({
      [loose]: 'absent',
      [thin]: 'present',
    });
    expect(found({ femur: { widths: seven(0) } })).toEqual({ [loose]: 'absent', [thin]: 'absent' });
  });

  test('WU-8 zones not looked at, or progress not asked for, clear nothing', () => {
    expect(found({ femur: { widths: [1, null, 0, 0, 0, 0, 0], progressing: 'no' } })).toEqual({});
    expect(found({ femur: { widths: [1, 0, 0, 0, 0, 0, 0] } })).toEqual({});
    expect(found(undefined)).toEqual({});
    expect(found({ femur: { widths: [1] } })).toEqual({});
  });

  test('WU-8 both published readings and the grade of stiffness come with the reading', () => {
    const reading = readWorkUp(
      {
        lucentLines: { 'tibia-ap': { widths: [3, 3, 3, 1, 0, 0, 0], progressing: 'yes' } },
        history: { examination: { flexionDeg: 80 } },
      },
      { today: '2026-11-01', measured: [] },
    );
    expect(reading.lucentLines['tibia-ap']).toMatchObject({
      ok: true,
      value: { sumMm: 10, reading1989: 'possible-or-impending-failure', reading2015: { extent: 'partial' } },
    });
    expect(reading.stiffness).toEqual({ grade: 'moderate', atLeast: true });
    expect(reading.evidence.find((e) => e.id === loose)).toMatchObject({ looked: 'present', from: 'lucent-lines' });
  });
});
