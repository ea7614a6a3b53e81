import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import { describe, expect, test } from 'vitest';
import { fullWorkUp } from '../../cases/full-work-up.ts';
import { caseFaults, readCase } from './read-case.ts';
import { writeCase } from './write-case.ts';

const bare: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'case-1',
  title: 'Invented knee',
  side: 'left',
  patient: {},
  films: [],
  marks: [],
};
const full: CaseFile = { ...bare, workUp: fullWorkUp() };
const faultOf = (workUp: unknown) => caseFaults(JSON.stringify({ ...bare, workUp }), 'case.json')[0];

describe('the work-up in a case file', () => {
  test('every field is written, read back the same, and written with the same bytes', () => {
    const read = readCase(writeCase(full), 'case.json');
    expect(read).toEqual({ ok: true, value: full, warnings: [] });
    expect(read.ok && writeCase(read.value)).toBe(writeCase(full));
  });

  test('whatever an edit may set the schema allows', () => {
    const parts = Object.entries(fullWorkUp());
    expect(parts.length).toBe(13);
    for (const [name, value] of parts) {
      const after = applyEdit(bare, { kind: 'set', field: `/workUp/${name}`, value });
      expect(after.ok && caseFaults(JSON.stringify(after.value), name)).toEqual([]);
    }
  });

  test('results that core refuses are in the file, marked when read, and in no count', () => {
    const { infection } = readWorkUp(fullWorkUp(), { today: '2026-11-01', measured: [] });
    expect(infection.observed.series.marked.map((m) => [m.entered.id, m.reason.code])).toEqual([
      ['r3', 'no-unit'],
      ['r4', 'impossible-date'],
      ['r5', 'future-result'],
      ['r6', 'impossible-date'],
      ['r7', 'not-a-word-of-the-test'],
    ]);
    expect(infection.observed.lab.map((a) => a.test)).toEqual(expect.arrayContaining(['crp', 'esr']));
    expect(infection.observed.lab.map((a) => a.test)).not.toContain('synovial-wbc');
  });

  test.each([
    [{ unheardOf: 1 }, 'workUp.unheardOf', 'field-unknown'],
    [{ evidence: { 'giving-way': 'yes' } }, 'workUp.evidence.giving-way', 'not-in-list'],
    [{ history: { asa: 7 } }, 'workUp.history.asa', 'out-of-range'],
    [
      { infection: { labResults: [{ id: 'a', analyte: 'crp', value: true }] } },
      'workUp.infection.labResults[0].value',
      'wrong-type',
    ],
    [{ infection: { sinsu: 'yes' } }, 'workUp.infection.sinsu', 'field-unknown'],
    [{ lucentLines: { patella: { widths: [1] } } }, 'workUp.lucentLines.patella.widths', 'too-few'],
    [{ preTest: 1 }, 'workUp.preTest', 'out-of-range'],
  ])('%j is refused at its field', (workUp, field, code) => {
    expect(faultOf(workUp)).toMatchObject({ field, code, file: 'case.json' });
  });
});
