import { readLabResult } from '@gapline/core/laboratory/lab-result.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCsvPaste } from './csv-paste.ts';
import { readFhirBundle } from './fhir-bundle.ts';

const TODAY = '2026-11-01';

const observation = (code: string, more: object, system = 'http://loinc.org') => ({
  resource: {
    resourceType: 'Observation',
    id: code,
    status: 'final',
    code: { coding: [{ system, code }], text: `test ${code}` },
    effectiveDateTime: '2026-10-02T08:30:00Z',
    ...more,
  },
});
const bundle = (...entry: object[]) => JSON.stringify({ resourceType: 'Bundle', type: 'collection', entry });
const quantity = (value: number, code: string, comparator?: string) => ({
  valueQuantity: {
    value,
    unit: code,
    system: 'http://unitsofmeasure.org',
    code,
    ...(comparator ? { comparator } : {}),
  },
});

const read = (text: string) => {
  const r = readFhirBundle(text, 'results.json');
  if (!r.ok) throw new Error(r.reason.code);
  return r.value;
};

describe('FHIR Bundle', () => {
  test('CRP in mg/dL is taken as it stands and read by core into mg/L', () => {
    const { results } = read(bundle(observation('1988-5', quantity(1.2, 'mg/dL'))));
    expect(results[0]).toEqual({ id: 'fhir-1988-5', analyte: 'crp', value: 1.2, unit: 'mg/dL', takenOn: '2026-10-02' });
    const reading = readLabResult(results[0]!, TODAY);
    expect(reading.ok && reading.value.of).toMatchObject({ kind: 'number', value: 12 });
  });

  test('synovial counts in both units agree after reading', () => {
    const { results } = read(
      bundle(observation('26469-7', quantity(3.4, '10*3/uL')), observation('26466-3', quantity(3400, '/uL'))),
    );
    const values = results
      .map((r) => readLabResult(r, TODAY))
      .map((r) => (r.ok && r.value.of.kind === 'number' ? r.value.of.value : null));
    expect(values).toEqual([3400, 3400]);
  });

  test('a comparator and a word travel with the value', () => {
    const { results } = read(
      bundle(
        observation('1988-5', quantity(5, 'mg/L', '<')),
        observation('30341-2', { valueQuantity: { value: 40, unit: 'mm/h' } }),
      ),
    );
    expect(results.map((r) => [r.value, r.comparator, r.unit])).toEqual([
      [5, '<', 'mg/L'],
      [40, undefined, 'mm/h'],
    ]);
  });

  test('codes the table does not know, other systems, no values and cancelled entries are shown, never dropped', () => {
    // 626-2 is a throat culture and 26485-3 monocytes: both are mapped to synovial tests in a public repository.
    const { results, notTaken } = read(
      bundle(
        observation('626-2', { valueString: 'growth' }),
        observation('26485-3', quantity(40, '%')),
        observation('1988-5', quantity(9, 'mg/L'), 'http://example.org/local'),
        observation('1988-5', {}),
        observation('30341-2', { ...quantity(30, 'mm/h'), status: 'cancelled' }),
      ),
    );
    expect(results).toEqual([]);
    expect(notTaken.map((n) => n.reason.code)).toEqual([
      'code-not-known',
      'code-not-known',
      'code-not-known',
      'no-value',
      'status-not-usable',
    ]);
    expect(notTaken[0]!.entry).toContain('626-2');
  });

  test('components of a panel are taken one by one', () => {
    const { results } = read(
      bundle(
        observation('unknown-panel', {
          component: [
            { code: { coding: [{ system: 'http://loinc.org', code: '26469-7' }] }, ...quantity(2500, '/uL') },
            { code: { coding: [{ system: 'http://loinc.org', code: '26522-3' }] }, ...quantity(81, '%') },
          ],
        }),
      ),
    );
    expect(results.map((r) => r.analyte)).toEqual(['synovial-wbc', 'synovial-pmn']);
  });

  test('what is not a Bundle is refused by name, and no text throws', () => {
    expect(readFhirBundle('{', 'a.json')).toMatchObject({ ok: false, reason: { code: 'not-json', field: 'a.json' } });
    expect(readFhirBundle('{"resourceType":"Patient"}', 'a.json')).toMatchObject({
      ok: false,
      reason: { code: 'not-a-bundle' },
    });
    fc.assert(
      fc.property(
        fc.json(),
        (j) =>
          typeof readFhirBundle(`{"resourceType":"Bundle","entry":[{"resource":${j}},${j}]}`, 'x').ok === 'boolean',
      ),
    );
  });
});

describe('pasted rows', () => {
  test('comma, semicolon and tab, decimal comma and comparator', () => {
    const semicolon = readCsvPaste('date;test;value;unit\n2026-10-02;CRP;12,5;mg/L\n2026-10-02;esr;<5;mm/h\n');
    expect(semicolon.ok && semicolon.value.results).toEqual([
      { id: 'csv-2', analyte: 'crp', value: 12.5, unit: 'mg/L', takenOn: '2026-10-02' },
      { id: 'csv-3', analyte: 'esr', value: 5, unit: 'mm/h', comparator: '<', takenOn: '2026-10-02' },
    ]);
    const tab = readCsvPaste('date\ttest\tvalue\tunit\n2026-10-02\t26469-7\t3400\t/uL');
    expect(tab.ok && tab.value.results[0]).toMatchObject({ analyte: 'synovial-wbc', value: 3400 });
  });

  test('with commas between columns "1,200" is never taken for 1.2', () => {
    const r = readCsvPaste('date,test,value,unit\n2026-10-02,synovial-wbc,"1,200",/uL');
    expect(r.ok && r.value.results[0]?.value).toBe('1,200');
    const read1 = r.ok ? readLabResult(r.value.results[0]!, TODAY) : null;
    expect(read1?.ok).toBe(false);
  });

  test('unknown tests are shown with their line, missing columns are named', () => {
    const r = readCsvPaste('date,test,value,unit\n2026-10-02,magic,1,mg/L');
    expect(r.ok && r.value.notTaken[0]).toMatchObject({ entry: 'line 2: 2026-10-02 magic 1 mg/L' });
    expect(readCsvPaste('test,value\nCRP,4')).toMatchObject({
      ok: false,
      reason: { code: 'csv-columns', message: 'Missing columns: date, unit.' },
    });
  });
});
