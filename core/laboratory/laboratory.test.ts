import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ANALYTE_IDS, ANALYTES, type AnalyteId, analyte, analyteOfLoinc } from './analyte.ts';
import { correctForBlood } from './blood-correction.ts';
import { dayNumber, daysBetween } from './day.ts';
import { type LabResult, readLabResult } from './lab-result.ts';
import { labSeries, resultInUse } from './series.ts';
import { toStandardUnit, UNITS } from './unit.ts';

const TODAY = '2026-11-25';
const result = (of: Partial<LabResult>): LabResult =>
  Object.freeze({ id: 'r1', analyte: 'crp', value: 12, unit: 'mg/L', takenOn: '2026-11-20', ...of });
const reason = (of: Partial<LabResult>) => {
  const read = readLabResult(result(of), TODAY);
  return read.ok ? null : read.reason;
};
const standard = (id: AnalyteId, value: number, unit: string) => {
  const read = toStandardUnit(id, value, unit);
  return read.ok ? read.value.value : null;
};

describe('analytes and words', () => {
  test('LAB-1 every analyte has a unit or words, and no code names two of them', () => {
    const codes = ANALYTE_IDS.flatMap((id) => analyte(id).loinc);
    expect(new Set(codes).size).toBe(codes.length);
    for (const id of ANALYTE_IDS) expect(analyte(id).unit !== null || analyte(id).words !== undefined).toBe(true);
  });

  test('LAB-1 the codes of a throat culture and of monocytes name no synovial test, and an unknown code is told apart', () => {
    expect(analyteOfLoinc('26469-7')).toBe('synovial-wbc');
    for (const wrong of ['626-2', '26485-3', '5799-2', '0000-0']) expect(analyteOfLoinc(wrong)).toBeNull();
  });

  test('LAB-2 one plus and two plus are different words, however they are written', () => {
    const rank = (value: string) => {
      const read = readLabResult(result({ analyte: 'leukocyte-esterase', value }), TODAY);
      return read.ok && read.value.of.kind === 'word' ? read.value.of.rank : null;
    };
    expect(['neg', 'trace', '+', '++', '2+', '+++'].map(rank)).toEqual([0, 1, 2, 3, 3, 4]);
    expect(rank('many')).toBeNull();
  });
});

describe('units', () => {
  test('LAB-3 both units of CRP give one value', () => {
    expect(standard('crp', 1, 'mg/dL')).toBe(10);
    expect(standard('crp', 10, 'mg/L')).toBe(10);
  });

  test('LAB-3 the six units of D-dimer: FEU is twice DDU, mg/L is a thousand ng/mL', () => {
    const six = ['ng/mL FEU', 'ug/mL FEU', 'mg/L FEU', 'ng/mL DDU', 'µg/mL DDU', 'mg/L DDU'];
    expect(six.map((unit) => standard('d-dimer', 1, unit))).toEqual([1, 1000, 1000, 2, 2000, 2000]);
  });

  test('LAB-3 a D-dimer that says neither FEU nor DDU, and one converted from DDU, carry a warning', () => {
    for (const [unit, code] of [
      ['ng/mL', 'kind-not-stated'],
      ['ng/mL{DDU}', 'approximate-ddu'],
    ] as const) {
      const read = toStandardUnit('d-dimer', 900, unit);
      expect(read.ok && read.warnings.map((w) => w.code)).toEqual([code]);
    }
  });

  test('LAB-3 white cells: 3.0 x10^9/L are 3,000 per microlitre, in every spelling', () => {
    for (const unit of ['x10^9/L', '10*9/L', '×10⁹/L', '10*3/uL', 'G/L'])
      expect(standard('synovial-wbc', 3, unit)).toBe(3000);
    for (const unit of ['/µL', '/uL', 'cells/mm3', 'cells/µL', '10^6/L'])
      expect(standard('synovial-wbc', 3000, unit)).toBe(3000);
  });

  test('LAB-3 cells per mL are converted with the warning that the unit is often a misprint', () => {
    const read = toStandardUnit('synovial-wbc', 3_000_000, 'cells/mL');
    expect(read.ok && [read.value.value, read.warnings[0]?.code]).toEqual([3000, 'per-ml-count']);
  });

  test('LAB-3 a conversion is shown in words, none is done silently', () => {
    const read = toStandardUnit('crp', 1.5, 'mg/dL');
    expect(read.ok && read.value.conversion).toBe('1.5 mg/dL x 10 = 15 mg/L');
  });

  test('LAB-3 scaling the unit changes nothing: every unit of every analyte round-trips', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ANALYTE_IDS), fc.double({ min: 0, max: 1e5, noNaN: true }), (id, value) => {
        for (const c of UNITS[id])
          for (const unit of c.spelt) expect(standard(id, value / c.factor, unit)).toBeCloseTo(value, 6);
      }),
    );
  });
});

describe('bad input is named at the field and not used', () => {
  test('LAB-4 a value without unit, a unit of another analyte', () => {
    const { unit: _, ...bare } = result({});
    const read = readLabResult(bare, TODAY);
    expect(read.ok ? null : [read.reason.code, read.reason.field]).toEqual(['no-unit', 'labResults[r1].unit']);
    expect(reason({ unit: 'mm/h' })?.code).toBe('unit-of-another-analyte');
    expect(reason({ unit: 'mm/h' })?.message).toContain('Erythrocyte sedimentation rate');
  });

  test('LAB-4 impossible and future days', () => {
    expect(reason({ takenOn: '2026-02-30' })?.code).toBe('impossible-date');
    expect(reason({ takenOn: '2026-13-01' })?.code).toBe('impossible-date');
    expect(reason({ takenOn: '2026-11-26' })?.code).toBe('future-result');
    expect(reason({ takenOn: TODAY })).toBeNull();
  });

  test('LAB-4 negative values, shares over 100 %, numbers that are none', () => {
    expect(reason({ value: -1 })?.code).toBe('negative-value');
    expect(reason({ analyte: 'synovial-pmn', value: 101, unit: '%' })?.code).toBe('percent-over-100');
    expect(reason({ value: Number.NaN })?.code).toBe('not-a-finite-number');
    expect(reason({ value: 'high' })?.code).toBe('not-a-word-of-the-test');
    expect(reason({ analyte: 'synovial-pmn', value: 0.8, unit: '1' })).toBeNull();
  });

  test('LAB-4 a rare value is asked about, a missing day is warned of, both are kept', () => {
    const read = readLabResult(result({ value: 900 }), TODAY);
    expect(read.ok && read.warnings.map((w) => w.code)).toEqual(['rarely-seen']);
    const { takenOn: _, ...undated } = result({});
    const bare = readLabResult(undated, TODAY);
    expect(bare.ok && bare.warnings.map((w) => w.code)).toEqual(['no-date']);
  });
});

describe('blood in the aspirate', () => {
  // Worked by hand from the published formula: 8,000 - 7,000 / 5,000,000 x 1,000,000 = 6,600;
  // (8,000 x 80 - 7,000 x 60 x 0.2) / 6,600 = 84.24 %.
  test('LAB-5 white cells brought by blood are taken out, raw and corrected both kept', () => {
    const read = correctForBlood({
      fluidWbc: 8000,
      fluidRbc: 1_000_000,
      bloodWbc: 7000,
      bloodRbc: 5_000_000,
      fluidPmnPercent: 80,
      bloodNeutrophilPercent: 60,
    });
    expect(read.ok && read.value.rawWbc).toBe(8000);
    expect(read.ok && read.value.wbc).toBe(6600);
    expect(read.ok && read.value.pmnPercent).toBeCloseTo(84.2424, 3);
  });

  test('LAB-5 more blood than fluid gives zero with a warning; blood without red cells is refused', () => {
    const counts = { fluidWbc: 100, fluidRbc: 4_000_000, bloodWbc: 7000, bloodRbc: 5_000_000 };
    const read = correctForBlood(counts);
    expect(read.ok && [read.value.wbc, read.warnings[0]?.code]).toEqual([0, 'more-blood-than-fluid']);
    expect(correctForBlood({ ...counts, bloodRbc: 0 }).ok).toBe(false);
  });

  test('LAB-5 the correction never raises the count and a clear fluid keeps it', () => {
    const count = fc.double({ min: 0, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(
        count,
        count,
        count,
        fc.double({ min: 1, max: 1e7, noNaN: true }),
        (fluidWbc, fluidRbc, bloodWbc, bloodRbc) => {
          const read = correctForBlood({ fluidWbc, fluidRbc, bloodWbc, bloodRbc });
          expect(read.ok && read.value.wbc <= fluidWbc && read.value.wbc >= 0).toBe(true);
          const clear = correctForBlood({ fluidWbc, fluidRbc: 0, bloodWbc, bloodRbc });
          expect(clear.ok && clear.value.wbc).toBe(fluidWbc);
        },
      ),
    );
  });
});

describe('series and the result in use', () => {
  const crp = (id: string, takenOn: string | undefined, value: number, sample?: string): LabResult => ({
    id,
    analyte: 'crp',
    value,
    unit: 'mg/L',
    ...(takenOn === undefined ? {} : { takenOn }),
    ...(sample === undefined ? {} : { sample }),
  });

  test('LAB-6 two different values for one sample are both marked and neither is used', () => {
    const series = labSeries([crp('a', '2026-11-01', 5), crp('b', '2026-11-01', 50)], TODAY);
    expect(series.readings.get('crp') ?? []).toEqual([]);
    expect(series.marked.map((m) => [m.entered.id, m.reason.code])).toEqual([
      ['a', 'two-values-for-one-sample'],
      ['b', 'two-values-for-one-sample'],
    ]);
  });

  test('LAB-6 the same value twice is one; named samples of one day are two', () => {
    expect(labSeries([crp('a', '2026-11-01', 5), crp('b', '2026-11-01', 5)], TODAY).readings.get('crp')).toHaveLength(
      1,
    );
    const named = labSeries([crp('a', '2026-11-01', 5, 'one'), crp('b', '2026-11-01', 50, 'two')], TODAY);
    expect(named.readings.get('crp')).toHaveLength(2);
  });

  test('LAB-6 what cannot be read is kept as entered and marked', () => {
    const bad = { ...crp('x', '2026-11-01', 5), unit: 'furlongs' };
    expect(labSeries([bad], TODAY).marked[0]?.entered).toBe(bad);
  });

  test('LAB-6 order of entry changes nothing', () => {
    const results = [
      crp('a', '2026-11-01', 5),
      crp('b', '2026-10-01', 50),
      crp('c', undefined, 7),
      crp('d', '2026-11-01', 5),
    ];
    const wanted = labSeries(results, TODAY);
    fc.assert(
      fc.property(fc.shuffledSubarray(results, { minLength: 4, maxLength: 4 }), (shuffled) => {
        expect(labSeries(shuffled, TODAY)).toEqual(wanted);
      }),
    );
  });

  test('LAB-7 the newest on or before the decision is used, the others are listed with why', () => {
    const all = [
      crp('old', '2019-05-01', 90),
      crp('a', '2026-10-01', 20),
      crp('b', '2026-11-01', 8),
      crp('late', '2026-11-20', 70),
      crp('no', undefined, 1),
    ];
    const { used, others } = resultInUse(labSeries(all, TODAY).readings.get('crp') ?? [], {
      decisionOn: '2026-11-10',
      notBefore: '2020-01-01',
    });
    expect(used.map((r) => r.id)).toEqual(['b']);
    expect(Object.fromEntries(others.map((o) => [o.reading.id, o.why]))).toEqual({
      old: 'before-operation',
      a: 'older',
      late: 'after-decision',
      no: 'undated',
    });
  });

  test('LAB-7 an undated result is used only where no dated one exists', () => {
    const only = labSeries([crp('no', undefined, 1)], TODAY).readings.get('crp') ?? [];
    expect(resultInUse(only, { decisionOn: TODAY }).used).toHaveLength(1);
    const both = labSeries([crp('no', undefined, 1), crp('late', '2026-11-20', 9)], TODAY).readings.get('crp') ?? [];
    expect(resultInUse(both, { decisionOn: '2026-11-10' }).used).toEqual([]);
  });

  test('LAB-7 days are counted by the calendar: 2024 had 366, 2100 has no 29 February', () => {
    expect(daysBetween('2024-01-01', '2025-01-01')).toBe(366);
    expect(dayNumber('1970-01-02')).toBe(1);
    expect(dayNumber('2100-02-29')).toBeNull();
    expect(dayNumber('2024-02-29')).not.toBeNull();
  });
});

test('LAB-1 the table is ordered and named as the pages read it', () => {
  expect(ANALYTES['synovial-pmn'].unit).toBe('%');
});
