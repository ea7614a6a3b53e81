import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LabResult } from '../laboratory/lab-result.ts';
import { complexityPrompt } from './complexity.ts';
import { evidenceFromHistory } from './evidence-from-history.ts';
import { bodyMassIndex, type History } from './history.ts';
import { readWorkUp } from './read-work-up.ts';
import type { WorkUp } from './work-up.ts';

const TODAY = '2026-11-01';
const around = { today: TODAY, measured: [] };
const lab = (id: string, analyte: LabResult['analyte'], value: number, unit: string): LabResult => ({
  id,
  analyte,
  value,
  unit,
  takenOn: '2026-10-01',
});
const looked = (w: WorkUp, id: string, more = {}) =>
  readWorkUp(w, { ...around, ...more }).evidence.find((e) => e.id === id)!;

describe('work-up', () => {
  test('WU-1 what was asked gives evidence, what was not asked gives none', () => {
    const ids = (h: History) => evidenceFromHistory(h).map((e) => [e.id, e.looked]);
    expect(ids({})).toEqual([]);
    expect(ids({ painCourse: 'free-then-gradual', painFreeMonths: 40 })).toEqual([
      ['never-pain-free', 'absent'],
      ['late-start-up-pain', 'present'],
      ['sudden-onset-after-event', 'absent'],
    ]);
    expect(ids({ painCourse: 'free-then-gradual' }).some(([id]) => id === 'late-start-up-pain')).toBe(false);
    expect(ids({ examination: { flexionDeg: 80 } })).toEqual([['flexion-under-90-or-deficit-over-10', 'present']]);
    expect(ids({ examination: { flexionDeg: 110 } })).toEqual([]);
    expect(evidenceFromHistory({}, { medial: 7, lateral: 2 })[0]).toMatchObject({
      id: 'coronal-laxity-extension',
      looked: 'present',
    });
  });

  test('WU-2 laboratory values become evidence in the units of the table, whatever they were entered in', () => {
    const infection = {
      labResults: [
        lab('a', 'crp', 4.2, 'mg/dL'),
        lab('b', 'esr', 55, 'mm/h'),
        lab('c', 'synovial-wbc', 0.9, '10*3/uL'),
        lab('d', 'synovial-pmn', 40, '%'),
      ],
    };
    expect(looked({ infection }, 'crp-and-esr-raised')).toMatchObject({
      looked: 'present',
      from: 'infection',
      because: 'CRP 42 mg/L, ESR 55 mm/h.',
    });
    expect(looked({ infection }, 'synovial-counts-low')).toMatchObject({
      looked: 'present',
      because: '900 cells per uL, PMN 40 %.',
    });
    expect(looked({ infection: { labResults: [lab('a', 'crp', 42, 'mg/L')] } }, 'crp-and-esr-raised').looked).toBe(
      'unknown',
    );
  });

  test('WU-2 a sinus confirms infection and leaves no doubt in the evidence', () => {
    const reading = readWorkUp({ infection: { sinus: 'yes' } }, around);
    expect(reading.infectionStanding).toBe('confirmed');
    expect(reading.causes.find((c) => c.id === 'infection')!.supports.map((s) => s.id)).toEqual(
      expect.arrayContaining(['sinus-or-exposed-implant', 'definition-confirms-infection']),
    );
  });

  test('WU-3 the level is the highest hit and two of level 2 ask for the discussion of level 3', () => {
    const base = { earlierRevisions: 0, history: {} };
    expect(complexityPrompt(base)).toMatchObject({ level: 1, discussAsThree: false });
    expect(complexityPrompt({ ...base, tibiaClass: '2B', mcl: 'attenuated' })).toMatchObject({
      level: 2,
      discussAsThree: true,
    });
    expect(complexityPrompt({ ...base, femurClass: '3' }).level).toBe(3);
    const sleeve: History = { parts: [{ id: 'p', part: 'tibial-stem', features: ['sleeve'] }] };
    expect(complexityPrompt({ ...base, history: sleeve }).hits[0]).toMatchObject({
      level: 3,
      domain: 'Implant in place',
    });
    expect(complexityPrompt(base).notKnown).toContain('infection');
  });

  test('WU-4 infection, bone loss and re-revision each ask for the meeting', () => {
    const base = { earlierRevisions: 0, history: {} };
    expect(complexityPrompt(base).meetingAsked).toBe(false);
    expect(complexityPrompt({ ...base, infected: 'yes' }).meetingAsked).toBe(true);
    expect(complexityPrompt({ ...base, tibiaClass: '2B' }).meetingAsked).toBe(true);
    expect(complexityPrompt({ ...base, earlierRevisions: 1 }).meetingAsked).toBe(true);
  });

  test('WU-5 a hand entry wins over the film and shows what it contradicts', () => {
    const measured = [
      { id: 'alignment-outlier-over-3' as const, looked: 'present' as const, because: 'Limb -6.0 deg.', film: 'f1' },
    ];
    expect(looked({}, 'alignment-outlier-over-3', { measured })).toMatchObject({ from: 'films', film: 'f1' });
    expect(
      looked({ evidence: { 'alignment-outlier-over-3': 'absent' } }, 'alignment-outlier-over-3', { measured }),
    ).toMatchObject({
      looked: 'absent',
      from: 'by-hand',
      overrides: { looked: 'present', because: 'Limb -6.0 deg.' },
    });
  });

  test('WU-5 the gate opens on the decision and a named cause, and the definitions stay as they are', () => {
    const decision = {
      standing: 'excluded' as const,
      by: 'surgeon',
      on: TODAY,
      reason: 'two dry taps, markers normal',
    };
    const open = readWorkUp(
      { infectionDecision: decision, causes: [{ cause: 'loosening', reason: 'sunk 4 mm' }] },
      around,
    );
    expect(open.gate.ready).toBe(true);
    expect(open.infection.standing).toBe('not-assessed');
    expect(readWorkUp({}, around).gate).toMatchObject({ ready: false, referralProposed: false });
  });

  test('WU-5 an empty record knows nothing and invents nothing', () => {
    const reading = readWorkUp({}, around);
    expect(reading.evidence.every((e) => e.looked === 'unknown' && e.from === 'nowhere')).toBe(true);
    expect(reading.causes.every((c) => c.supports.length === 0 && c.contradicts.length === 0)).toBe(true);
  });

  test('WU-5 order of entry of results never matters', () => {
    const results = [
      lab('a', 'crp', 42, 'mg/L'),
      lab('b', 'esr', 55, 'mm/h'),
      lab('c', 'synovial-wbc', 9000, '/uL'),
      lab('d', 'synovial-pmn', 92, '%'),
    ];
    const reference = readWorkUp({ infection: { labResults: results } }, around);
    fc.assert(
      fc.property(fc.shuffledSubarray(results, { minLength: 4 }), (labResults) => {
        expect(readWorkUp({ infection: { labResults } }, around).infection.assessments).toEqual(
          reference.infection.assessments,
        );
      }),
    );
  });

  test('WU-1 body mass index is known only from two sensible numbers', () => {
    expect(bodyMassIndex(170, 80)).toBeCloseTo(27.68, 2);
    expect(bodyMassIndex(1.7, 80)).toBeNull();
    expect(bodyMassIndex(undefined, 80)).toBeNull();
  });
});
