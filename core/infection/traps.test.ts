import { describe, expect, test } from 'vitest';
import type { AnalyteId } from '../laboratory/analyte.ts';
import type { LabResult } from '../laboratory/lab-result.ts';
import type { Assessment } from './assess.ts';
import type { DefinitionId } from './definition.ts';
import { DEFINITIONS } from './definitions/definitions.ts';
import { readEarlyLimits } from './early-limits.ts';
import type { CultureSample, InfectionFindings, Organism } from './findings.ts';
import { observe } from './observe.ts';
import { workUp } from './work-up.ts';

// Items that are most often misread when these definitions are put into a program, one test each.

const TODAY = '2026-11-25';
const UNIT: Readonly<Partial<Record<AnalyteId, string>>> = {
  crp: 'mg/L',
  esr: 'mm/h',
  'd-dimer': 'ng/mL',
  'il-6': 'pg/mL',
  procalcitonin: 'ng/mL',
  'synovial-wbc': '/uL',
  'synovial-pmn': '%',
  'synovial-crp': 'mg/L',
  'synovial-rbc': '/uL',
  'blood-wbc': '/uL',
  'blood-rbc': '/uL',
};
type Values = Readonly<Partial<Record<AnalyteId, number | string>>>;
const lab = (values: Values, takenOn = '2026-11-20'): readonly LabResult[] =>
  (Object.entries(values) as [AnalyteId, number | string][]).map(([analyte, value]) => ({
    id: `${analyte} ${takenOn}`,
    analyte,
    value,
    takenOn,
    ...(typeof value === 'number' ? { unit: UNIT[analyte] ?? '' } : {}),
  }));
const CHRONIC: InfectionFindings = { lastOperationOn: '2019-03-01' };
const ACUTE: InfectionFindings = { lastOperationOn: '2026-10-20' };
const of = (id: DefinitionId, findings: InfectionFindings): Assessment =>
  workUp({ ...CHRONIC, ...findings }, TODAY).assessments.find((a) => a.definition === id)!;
const line = (a: Assessment, id: string) => a.lines.find((l) => l.id === id)!;
const points = (a: Assessment) => a.score?.soFar;

const CONS: Organism = { name: 'Staphylococcus epidermidis', kind: 'common-contaminant' };
const CUTI: Organism = { name: 'Cutibacterium acnes', kind: 'common-contaminant' };
const sample = (id: string, from: CultureSample['from'], organism: Organism | null): CultureSample => ({
  id,
  from,
  growth: organism ? 'growth' : 'none',
  ...(organism ? { organisms: [organism] } : {}),
});

describe('points, slots and bands', () => {
  test('INF-1 two tables of 2018 are kept apart: the same patient is infected in one and inconclusive in the other', () => {
    const f = { labResults: lab({ 'synovial-wbc': 4000, 'alpha-defensin': 'positive' }) };
    expect([of('parvizi-2018', f).class.id, points(of('parvizi-2018', f))]).toEqual(['infected', 6]);
    expect([of('icm-2018-proposed', f).class.id, points(of('icm-2018-proposed', f))]).toEqual(['inconclusive', 3]);
  });

  test('INF-1 every result carries id, version, source and how far it was verified', () => {
    for (const a of workUp({}, TODAY).assessments)
      for (const text of [a.name, a.version, a.source, a.trust]) expect(text.length).toBeGreaterThan(3);
    expect(new Set(DEFINITIONS.map((d) => d.id)).size).toBe(8);
  });

  test('INF-1 CRP and D-dimer share two points, white cells and strip share three', () => {
    const both = of('parvizi-2018', { labResults: lab({ crp: 20, 'd-dimer': 2000 }) });
    expect(points(both)).toBe(2);
    const fluid = of('parvizi-2018', { labResults: lab({ 'synovial-wbc': 9000, 'leukocyte-esterase': '+++' }) });
    expect(points(fluid)).toBe(3);
    expect(line(fluid, 'wbc-strip').parts.map((p) => p.status)).toEqual(['met', 'met']);
  });

  test('INF-2 one plus on the strip does not count, two do', () => {
    expect(points(of('parvizi-2018', { labResults: lab({ 'leukocyte-esterase': '+' }) }))).toBe(0);
    expect(points(of('parvizi-2018', { labResults: lab({ 'leukocyte-esterase': '++' }) }))).toBe(3);
  });

  test('INF-2 equality is negative at every limit', () => {
    const at = lab({ crp: 10, esr: 30, 'd-dimer': 860, 'synovial-wbc': 3000, 'synovial-pmn': 80, 'synovial-crp': 6.9 });
    expect(points(of('parvizi-2018', { labResults: at }))).toBe(0);
    const low = of('ebjis-2021', { labResults: lab({ crp: 10, 'synovial-wbc': 1500, 'synovial-pmn': 65 }) });
    expect(low.lines.some((l) => l.status === 'met')).toBe(false);
  });

  test('INF-2 a result below the limit of its assay decides only what it can decide', () => {
    const crp = (value: number): InfectionFindings => ({
      labResults: [{ id: 'c', analyte: 'crp', value, unit: 'mg/L', comparator: '<' }],
    });
    expect(line(of('ebjis-2021', crp(4)), 'crp').status).toBe('not-met');
    expect(line(of('ebjis-2021', crp(10)), 'crp').status).toBe('not-met');
    expect(line(of('ebjis-2021', crp(20)), 'crp').status).toBe('not-known');
  });

  test('INF-2 the limit of the polymorphonuclear share is 80, 70, 90 or 65 by definition and time', () => {
    const pmn = (value: number, more = CHRONIC) => ({ ...more, labResults: lab({ 'synovial-pmn': value }) });
    expect(line(of('parvizi-2018', pmn(75)), 'pmn').status).toBe('not-met');
    expect(line(of('icm-2018-proposed', pmn(75)), 'pmn').status).toBe('met');
    expect(line(of('icm-2018-proposed', pmn(85, ACUTE)), 'pmn').status).toBe('not-met');
    expect(line(of('ebjis-2021', pmn(66)), 'pmn-65').status).toBe('met');
    expect(line(of('ebjis-2021', pmn(66)), 'pmn-80').status).toBe('not-met');
  });

  test('INF-5 three points before operation stay "possibly infected" until something of the operation is known', () => {
    const f = { labResults: lab({ 'synovial-wbc': 4000 }) };
    expect(of('parvizi-2018', f).class.id).toBe('possibly');
    const partly = { ...f, histology: 'negative' as const };
    expect(of('parvizi-2018', partly).class.id).toBe('possibly');
    const all = {
      ...partly,
      purulence: 'no' as const,
      cultures: [sample('a', 'aspirate', null), sample('t', 'tissue', null)],
    };
    expect(of('parvizi-2018', all).class.id).toBe('not-infected');
  });

  test('INF-5 a dry tap is no zero: without a synovial result the first band says nothing', () => {
    expect(of('parvizi-2018', { tap: 'dry', labResults: lab({ crp: 3, esr: 10 }) }).class.id).toBe('no-fluid');
  });

  test('INF-4 a missing test is no zero: the score is shown with what it can still reach', () => {
    const a = of('parvizi-2018', { labResults: lab({ crp: 20 }) });
    expect(a.score).toMatchObject({ soFar: 2, atLeast: 2, max: 20 });
    expect(a.score?.atMost).toBe(20);
    expect(a.settled).toBe(false);
    expect(a.possible.map((c) => c.id)).toEqual(['infected', 'inconclusive', 'not-infected']);
  });

  test('INF-4 a negative alpha-defensin takes no point away and excludes nothing', () => {
    const before = of('parvizi-2018', { labResults: lab({ crp: 20, 'synovial-wbc': 4000 }) });
    const after = of('parvizi-2018', {
      labResults: lab({ crp: 20, 'synovial-wbc': 4000, 'alpha-defensin': 'negative' }),
    });
    expect(points(after)).toBe(points(before));
    const brucella = { labResults: lab({ 'alpha-defensin': 'negative' }) };
    expect(of('ebjis-2021', brucella).class.standing).not.toBe('excluded');
  });

  test('INF-4 a normal CRP excludes infection in no definition', () => {
    for (const a of workUp({ ...CHRONIC, labResults: lab({ crp: 2 }) }, TODAY).assessments)
      expect(a.settled).toBe(false);
    expect(workUp({ ...CHRONIC, labResults: lab({ crp: 2 }) }, TODAY).standing).toBe('not-classifiable');
  });

  test('INF-4 with nothing known no definition has a class', () => {
    const all = workUp({}, TODAY);
    expect(all.assessments.map((a) => a.class.id)).toEqual(Array(8).fill('not-assessed').with(5, 'too-few'));
    expect(all.standing).toBe('not-assessed');
  });

  test('INF-1 ESR and CRP, or one of them: both readings of 2011 stand side by side', () => {
    const f = { labResults: lab({ crp: 20, esr: 10 }) };
    expect(points(of('msis-2011', f))).toBe(0);
    expect(points(of('msis-2011-or', f))).toBe(1);
  });

  test('INF-1 IDSA is a list without score, and leaves infection possible with nothing on it', () => {
    const a = of('idsa-2013', { sinus: 'no', purulence: 'no', histology: 'negative' });
    expect([a.score, a.class.id, a.class.standing]).toEqual([null, 'nothing-listed', 'open']);
  });
});

describe('cultures', () => {
  test('INF-8 two samples with one organism are a major criterion and add no points for a single culture', () => {
    const a = of('parvizi-2018', { cultures: [sample('1', 'tissue', CONS), sample('2', 'tissue', CONS)] });
    expect([a.class.id, a.score, line(a, 'one-culture').countedElsewhere]).toEqual(['infected', null, true]);
  });

  test('INF-8 two samples with different organisms are single cultures', () => {
    const a = of('parvizi-2018', {
      cultures: [sample('a', 'aspirate', null), sample('1', 'tissue', CONS), sample('2', 'tissue', CUTI)],
    });
    expect([line(a, 'two-cultures').status, points(a)]).toEqual(['not-met', 2]);
  });

  test('INF-8 aspirate and one sample of the operation with one organism are two positives', () => {
    const cultures = [
      sample('a', 'aspirate', CONS),
      sample('1', 'tissue', { ...CONS, name: 'staphylococcus  EPIDERMIDIS ' }),
    ];
    for (const id of ['ebjis-2021', 'idsa-2013', 'parvizi-2018', 'icm-2013'] as const)
      expect(of(id, { cultures }).class.standing).toBe('confirmed');
  });

  test('INF-8 two taps with one organism are two samples, but EBJIS asks for one of the operation', () => {
    const cultures = [sample('a', 'aspirate', CONS), sample('b', 'aspirate', CONS)];
    expect(of('icm-2013', { cultures }).class.id).toBe('infected');
    expect(of('ebjis-2021', { cultures }).class.id).toBe('gap');
  });

  test('INF-8 growth without a name may be the same organism: neither yes nor no', () => {
    const cultures: readonly CultureSample[] = [
      { id: '1', from: 'tissue', growth: 'growth' },
      { id: '2', from: 'tissue', growth: 'growth' },
    ];
    expect(line(of('parvizi-2018', { cultures }), 'two-cultures').status).toBe('not-known');
  });

  test('INF-8 a pending culture is not a negative one', () => {
    const cultures: readonly CultureSample[] = [{ id: '1', from: 'aspirate', growth: 'pending' }];
    expect(line(of('ebjis-2021', { cultures }), 'aspirate-culture').status).toBe('not-known');
  });

  test('INF-8 sonication: over 50 confirms, over 200 when centrifuged, 2 to 50 is likely only, and no point elsewhere', () => {
    const son = (cfuPerMl: number, centrifuged = false) =>
      of('ebjis-2021', {
        labResults: lab({ crp: 20 }),
        cultures: [{ ...sample('s', 'sonication', CONS), cfuPerMl, centrifuged }],
      }).class.id;
    expect([son(51), son(50), son(2), son(201, true), son(200, true)]).toEqual([
      'confirmed',
      'likely',
      'likely',
      'confirmed',
      'likely',
    ]);
    expect(points(of('parvizi-2018', { cultures: [{ ...sample('s', 'sonication', CONS), cfuPerMl: 500 }] }))).toBe(0);
  });
});

describe('time since the operation', () => {
  test('INF-6 within 90 days only CRP 100, white cells 10,000 and share 90 count; ESR and D-dimer have no part', () => {
    const f = {
      ...ACUTE,
      labResults: lab({ crp: 99, esr: 90, 'd-dimer': 5000, 'synovial-wbc': 9999, 'synovial-pmn': 90 }),
    };
    expect(points(of('icm-2018-proposed', f))).toBe(0);
    expect(points(of('icm-2013', f))).toBe(0);
    const more = { ...ACUTE, labResults: lab({ crp: 101, 'synovial-wbc': 10_001, 'synovial-pmn': 91 }) };
    expect([points(of('icm-2018-proposed', more)), points(of('icm-2013', more))]).toEqual([7, 3]);
  });

  test('INF-6 the 90th day is chronic, the 89th is acute', () => {
    const crp = (lastOperationOn: string) =>
      line(of('icm-2018-proposed', { lastOperationOn, labResults: lab({ crp: 50 }) }), 'crp-d-dimer').parts[0]!.status;
    expect([crp('2026-08-27'), crp('2026-08-28')]).toEqual(['met', 'not-met']);
  });

  test('INF-6 without the day of the operation a value between both limits is not known', () => {
    const { known } = observe({ labResults: lab({ crp: 50 }) }, TODAY);
    expect(known.at(-1)).toBe(3);
    const a = workUp({ labResults: lab({ crp: 50 }) }, TODAY).assessments.find(
      (x) => x.definition === 'icm-2018-proposed',
    )!;
    expect(line(a, 'crp-d-dimer').parts[0]!.status).toBe('not-known');
    const sure = workUp({ labResults: lab({ crp: 150 }) }, TODAY).assessments.find(
      (x) => x.definition === 'icm-2018-proposed',
    )!;
    expect(line(sure, 'crp-d-dimer').parts[0]!.status).toBe('met');
  });

  test('INF-6 the 2018 definition within 90 days shows its score, marked as outside its range', () => {
    const f = { ...ACUTE, labResults: lab({ crp: 80, esr: 60, 'synovial-wbc': 9000, 'synovial-pmn': 85 }) };
    const a = of('parvizi-2018', f);
    expect([points(a), a.range]).toEqual([8, 'outside']);
    expect(of('icm-2018-proposed', f).range).toBe('inside');
  });

  test('INF-6 sudden onset in an old joint keeps the limits of an old joint, with a caution', () => {
    const w = workUp({ ...CHRONIC, labResults: lab({ crp: 50 }), context: { suddenOnset: 'yes' } }, TODAY);
    expect(line(w.assessments.find((a) => a.definition === 'icm-2018-proposed')!, 'crp-d-dimer').status).toBe('met');
    expect(w.cautions.map((c) => c.id)).toEqual(['sudden-onset']);
  });
});

describe('limits of the first weeks', () => {
  test('INF-16 four weeks after operation the published limits disagree, and each is shown', () => {
    const rows = readEarlyLimits(28, { crp: 80, 'synovial-wbc': 9000, 'synovial-pmn': 85 });
    const of = (test: string) => rows.filter((r) => r.test === test).map((r) => [r.over, r.reading]);
    expect(of('synovial-wbc')).toEqual([
      [10_170, 'not-over'],
      [27_800, 'not-over'],
      [6130, 'over'],
    ]);
    expect(of('crp')).toEqual([
      [95, 'not-over'],
      [39.8, 'over'],
    ]);
    expect(of('esr')).toEqual([[39.5, 'not-known']]);
  });

  test('INF-16 after 90 days none applies, and a value at the limit is not over it', () => {
    expect(readEarlyLimits(91, { crp: 200 })).toEqual([]);
    expect(readEarlyLimits(90, { crp: 39.8 }).find((r) => r.test === 'crp')?.reading).toBe('not-over');
  });
});

describe('EBJIS 2021', () => {
  test('INF-7 two synovial findings alone are not likely, and CRP with a clinical feature alone is not', () => {
    expect(of('ebjis-2021', { labResults: lab({ 'synovial-wbc': 2000, 'synovial-pmn': 70 }) }).class.id).toBe('gap');
    expect(of('ebjis-2021', { labResults: lab({ crp: 20 }), feverOrBacteraemia: 'yes' }).class.id).toBe('gap');
    expect(of('ebjis-2021', { labResults: lab({ 'synovial-wbc': 2000 }), feverOrBacteraemia: 'yes' }).class.id).toBe(
      'likely',
    );
  });

  test('INF-7 unlikely asks for a work-up: sinus, CRP, cells and share known, one culture without growth', () => {
    const full: InfectionFindings = {
      sinus: 'no',
      labResults: lab({ crp: 3, 'synovial-wbc': 500, 'synovial-pmn': 20 }),
      cultures: [sample('a', 'aspirate', null)],
    };
    expect(of('ebjis-2021', full).class.id).toBe('unlikely');
    expect(of('ebjis-2021', { ...full, cultures: [] }).class.id).toBe('insufficient');
    expect(of('ebjis-2021', { ...full, sinus: 'unknown' }).class.id).toBe('insufficient');
  });

  test('INF-7 loosening counts only within five years of implantation, and is not known without the days', () => {
    const loose = (more: InfectionFindings) =>
      line(of('ebjis-2021', { loosening: 'yes', ...more }), 'loosening').status;
    expect(loose({ implantedOn: '2019-01-01', looseningSeenOn: '2023-12-01' })).toBe('met');
    expect(loose({ implantedOn: '2019-01-01', looseningSeenOn: '2024-06-01' })).toBe('not-met');
    expect(loose({})).toBe('not-known');
  });

  test('INF-7 a negative bone scan speaks for unlikely, a positive one and a positive white-cell scan do not confirm', () => {
    expect(line(of('ebjis-2021', { boneScan: 'negative' }), 'bone-scan').status).toBe('met');
    expect(
      of('ebjis-2021', { boneScan: 'positive', leukocyteScan: 'positive', labResults: lab({ crp: 20 }) }).class.id,
    ).toBe('likely');
  });

  test('INF-7 the limits are those of 2021, not the older 2,000 and 70', () => {
    const a = of('ebjis-2021', { labResults: lab({ crp: 20, 'synovial-wbc': 1600 }) });
    expect(a.class.id).toBe('likely');
    expect(of('ebjis-2021', { purulence: 'yes' }).class.id).toBe('gap');
  });

  test('INF-7 histology: five neutrophils in one field is likely, in five fields confirmed', () => {
    const h = (histology: InfectionFindings['histology'] & string) =>
      of('ebjis-2021', { labResults: lab({ crp: 20 }), histology: histology as 'negative' }).class.id;
    expect([h('five-in-one-field'), h('five-in-five-fields'), h('organisms-seen')]).toEqual([
      'likely',
      'confirmed',
      'confirmed',
    ]);
    expect(points(of('parvizi-2018', { histology: 'five-in-one-field' }))).toBe(0);
  });
});

describe('purulence', () => {
  const purulent = (context: InfectionFindings['context']) => {
    const f: InfectionFindings = { purulence: 'yes', ...(context ? { context } : {}) };
    return [
      line(of('idsa-2013', f), 'purulence').status,
      line(of('ebjis-2021', f), 'purulence').status,
      line(of('icm-2018-proposed', f), 'purulence').status,
      line(of('parvizi-2018', f), 'purulence').status,
      of('icm-2013', f).class.id,
    ];
  };
  test('INF-10 counts by the words of each definition when crystals or a reaction to metal explain it', () => {
    expect(purulent({})).toEqual(['met', 'met', 'met', 'met', 'not-assessed']);
    expect(purulent({ crystals: 'yes' })).toEqual(['not-met', 'not-met', 'met', 'met', 'not-assessed']);
    expect(purulent({ metalReaction: 'yes' })).toEqual(['not-met', 'not-met', 'not-met', 'met', 'not-assessed']);
  });
});

describe('WAIOT', () => {
  test('INF-4 hot knee, two rule-in positive, no rule-out negative: +2, high-grade', () => {
    const a = of('waiot-2019', {
      localSigns: { pain: 'yes', warmth: 'yes' },
      labResults: lab({ 'il-6': 20, procalcitonin: 1, crp: 30, esr: 50 }),
    });
    expect([points(a), a.class.id]).toEqual([2, 'high-grade']);
  });

  test('INF-4 unexplained pain, one rule-in positive, one of two rule-out negative: 0, low-grade', () => {
    const a = of('waiot-2019', {
      otherCause: 'no',
      localSigns: { pain: 'yes', swelling: 'no', redness: 'no', warmth: 'no', 'loss-of-function': 'no' },
      labResults: lab({ 'il-6': 20, procalcitonin: 0.1, crp: 30, esr: 10 }),
    });
    expect([points(a), a.class.id]).toEqual([0, 'low-grade']);
  });

  test('INF-4 wear explains it, no rule-in, two rule-out negative: -2, cultures of the operation decide', () => {
    const f: InfectionFindings = {
      otherCause: 'yes',
      labResults: lab({ 'il-6': 2, procalcitonin: 0.1, crp: 3, esr: 10 }),
    };
    expect([points(of('waiot-2019', f)), of('waiot-2019', f).class.id]).toEqual([-2, 'by-culture']);
    const after = (cultures: readonly CultureSample[], histology: 'negative' | 'five-in-five-fields' = 'negative') =>
      of('waiot-2019', {
        ...f,
        histology,
        cultures: [sample('a', 'aspirate', null), ...cultures, sample('s', 'sonication', null)],
      }).class.id;
    expect(after([sample('1', 'tissue', null)])).toBe('no-infection');
    expect(after([sample('1', 'tissue', CONS)])).toBe('contamination');
    expect(after([sample('1', 'tissue', CONS), sample('2', 'tissue', CONS)])).toBe('biofilm');
  });

  test('INF-4 fewer than two tests of either kind: not classifiable', () => {
    expect(of('waiot-2019', { labResults: lab({ 'il-6': 20, crp: 3, esr: 10 }) }).class.id).toBe('too-few');
  });
});

describe('which result is read', () => {
  test('INF-9 a blood-stained count is corrected before it is compared, raw and corrected both kept', () => {
    const counts = lab({ 'synovial-wbc': 4000, 'synovial-rbc': 1_000_000, 'blood-wbc': 7000, 'blood-rbc': 5_000_000 });
    const w = workUp({ ...CHRONIC, labResults: counts, context: { bloodStainedAspirate: 'yes' } }, TODAY);
    expect(w.observed.lab.find((l) => l.test === 'synovial-wbc')?.corrected).toMatchObject({ rawWbc: 4000, wbc: 2600 });
    expect(line(w.assessments[0]!, 'wbc-strip').parts[0]!.status).toBe('not-met');
    expect(w.cautions.map((c) => c.id)).toEqual([]);
    const raw = workUp(
      { ...CHRONIC, labResults: lab({ 'synovial-wbc': 4000 }), context: { bloodStainedAspirate: 'yes' } },
      TODAY,
    );
    expect(line(raw.assessments[0]!, 'wbc-strip').parts[0]!.status).toBe('met');
    expect(raw.cautions.map((c) => c.id)).toEqual(['blood-stained']);
  });

  test('INF-9 the newest tap is read, the earlier one is listed, and repeated taps bring a caution', () => {
    const w = workUp(
      { ...CHRONIC, labResults: [...lab({ 'synovial-wbc': 5000 }, '2026-09-01'), ...lab({ 'synovial-wbc': 1000 })] },
      TODAY,
    );
    const wbc = w.observed.lab.find((l) => l.test === 'synovial-wbc')!;
    expect(wbc.inUse.used.map((r) => r.takenOn)).toEqual(['2026-11-20']);
    expect(wbc.inUse.others.map((o) => [o.reading.takenOn, o.why])).toEqual([['2026-09-01', 'older']]);
    expect(w.cautions.map((c) => c.id)).toEqual(['repeated-taps']);
  });

  test('INF-9 what is at fault is named at its field and not scored', () => {
    const w = workUp(
      { ...CHRONIC, lastOperationOn: '2026-02-30', labResults: [{ id: 'c', analyte: 'crp', value: 500 }] },
      TODAY,
    );
    expect(w.observed.faults.map((f) => [f.field, f.code])).toEqual([
      ['lastOperationOn', 'impossible-date'],
      ['labResults[c].unit', 'no-unit'],
    ]);
    expect(w.standing).toBe('not-assessed');
  });

  test('INF-9 a culture with an impossible day, a negative count or a contradiction is named and not scored', () => {
    const bad: readonly CultureSample[] = [
      { ...sample('d', 'tissue', CONS), takenOn: '2026-02-30' },
      { ...sample('f', 'tissue', CONS), takenOn: '2027-01-01' },
      { ...sample('n', 'sonication', CONS), cfuPerMl: -1 },
      { id: 'c', from: 'aspirate', growth: 'none', organisms: [CONS] },
    ];
    const w = workUp({ ...CHRONIC, cultures: bad }, TODAY);
    expect(w.observed.faults.map((f) => [f.field, f.code])).toEqual([
      ['cultures[d].takenOn', 'impossible-date'],
      ['cultures[f].takenOn', 'future-result'],
      ['cultures[n].cfuPerMl', 'negative-value'],
      ['cultures[c].growth', 'growth-contradicts'],
    ]);
    expect(w.standing).toBe('not-assessed');
  });

  test('INF-9 cultures from before the last operation, or from after the decision, are not used', () => {
    const at = (takenOn: string) => ({ ...sample(takenOn, 'tissue', CONS), takenOn });
    const w = (decisionOn: string) =>
      of('parvizi-2018', { decisionOn, lastOperationOn: '2026-03-01', cultures: [at('2026-02-01'), at('2026-06-01')] });
    expect(points(w('2026-07-01'))).toBe(2);
    expect(w('2026-05-01').class.id).toBe('not-assessed');
  });

  test('INF-9 alpha-defensin: a signal of 1.0 is negative, above it positive, and a word does as well', () => {
    const ad = (value: number | string) =>
      line(
        of('parvizi-2018', { labResults: [{ id: 'a', analyte: 'alpha-defensin', value, unit: 's/co' }] }),
        'alpha-defensin',
      ).status;
    expect([ad(1), ad(1.1), ad('positive'), ad('neg')]).toEqual(['not-met', 'met', 'met', 'not-met']);
  });
});

describe('cautions stand beside the score', () => {
  test('INF-13 urate crystals: the score of 8 stays and the caution is shown', () => {
    const f: InfectionFindings = {
      ...CHRONIC,
      labResults: lab({ crp: 95, esr: 66, 'synovial-wbc': 30_000, 'synovial-pmn': 92 }),
    };
    const w = workUp({ ...f, context: { crystals: 'yes' } }, TODAY);
    expect([points(w.assessments[0]!), w.assessments[0]!.class.id]).toEqual([8, 'infected']);
    expect(w.cautions.map((c) => c.id)).toEqual(['crystals']);
    expect(workUp(f, TODAY).assessments).toEqual(w.assessments);
  });

  test('INF-13 published case of pseudogout: 8 points with negative alpha-defensin, and the caution', () => {
    // 78 years, calcium pyrophosphate on histology, well after two years without operation; 8 points in the report.
    const w = workUp(
      {
        ...CHRONIC,
        labResults: lab({ crp: 60, esr: 50, 'synovial-wbc': 20_000, 'synovial-pmn': 90, 'alpha-defensin': 'negative' }),
        context: { crystals: 'yes' },
      },
      TODAY,
    );
    expect([points(w.assessments[0]!), w.assessments[0]!.class.id, w.cautions[0]?.id]).toEqual([
      8,
      'infected',
      'crystals',
    ]);
  });

  test('INF-13 published case of gout: positive alpha-defensin with crystals confirms by EBJIS, and note e is shown', () => {
    const w = workUp(
      { ...CHRONIC, labResults: lab({ 'alpha-defensin': 'positive' }), context: { crystals: 'yes' } },
      TODAY,
    );
    expect(w.assessments[1]!.class.id).toBe('confirmed');
    expect(w.cautions[0]).toMatchObject({ id: 'crystals' });
    expect(w.cautions[0]?.tests).toContain('alpha-defensin');
  });

  test('INF-13 published case of Brucella with negative alpha-defensin: nothing is excluded', () => {
    const w = workUp(
      { ...CHRONIC, labResults: lab({ 'alpha-defensin': 'negative' }), context: { slowOrganismSuspected: 'yes' } },
      TODAY,
    );
    expect(w.standing).toBe('not-classifiable');
    expect(w.cautions.map((c) => c.id)).toEqual(['slow-organism']);
  });

  test('INF-13 every context brings its own caution and changes no class', () => {
    const base: InfectionFindings = {
      ...CHRONIC,
      labResults: lab({ crp: 20, 'synovial-wbc': 2000, 'synovial-pmn': 70 }),
    };
    const all = (
      [
        'inflammatoryDisease',
        'fracture',
        'haematoma',
        'antibioticsBeforeTap',
        'spacerInPlace',
        'metalReaction',
      ] as const
    ).map((k) => {
      const w = workUp({ ...base, context: { [k]: 'yes' } }, TODAY);
      expect(w.assessments).toEqual(workUp(base, TODAY).assessments);
      return w.cautions.map((c) => c.id).join();
    });
    expect(all).toEqual([
      'inflammatory-disease',
      'fracture',
      'haematoma',
      'antibiotics-before-tap',
      'spacer',
      'metal-reaction',
    ]);
  });
});

describe('how infection stands', () => {
  const clean: InfectionFindings = {
    ...CHRONIC,
    sinus: 'no',
    labResults: lab({ crp: 3, esr: 10, 'synovial-wbc': 500, 'synovial-pmn': 20 }),
    cultures: [sample('a', 'aspirate', null)],
  };
  test('INF-15 excluded only by an adequate work-up, and never with a spacer in place', () => {
    expect(workUp(clean, TODAY).standing).toBe('excluded');
    expect(workUp({ ...clean, cultures: [] }, TODAY).standing).toBe('not-classifiable');
    expect(workUp({ ...clean, context: { spacerInPlace: 'yes' } }, TODAY).standing).toBe('not-classifiable');
  });

  test('INF-15 a raised CRP alone classifies nothing, one positive test beside it makes infection likely', () => {
    expect(workUp({ ...CHRONIC, labResults: lab({ crp: 30 }) }, TODAY).standing).toBe('not-classifiable');
    expect(workUp({ ...CHRONIC, labResults: lab({ crp: 30, 'synovial-wbc': 2000 }) }, TODAY).standing).toBe('likely');
  });

  test('INF-15 points of the 2018 definition within 90 days confirm nothing, a sinus does at any time', () => {
    const early = {
      ...ACUTE,
      labResults: lab({ crp: 80, esr: 60, 'd-dimer': 900, 'synovial-crp': 8 }),
      purulence: 'yes' as const,
    };
    expect(workUp(early, TODAY).assessments[0]!.class.id).toBe('infected');
    expect(workUp(early, TODAY).standing).toBe('not-classifiable');
    expect(workUp({ ...early, sinus: 'yes' }, TODAY).standing).toBe('confirmed');
  });
});
