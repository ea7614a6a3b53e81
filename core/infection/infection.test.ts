import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LabResult } from '../laboratory/lab-result.ts';
import { assessAll, assessOne } from './assess.ts';
import { AT, CELLS, cellsIn, everyCell, NOTHING_KNOWN, type Observation } from './cells.ts';
import { COMPILED } from './compile.ts';
import { DEFINITIONS, SHOWN_FIRST } from './definitions/definitions.ts';
import type { CultureSample, InfectionFindings } from './findings.ts';
import { ACCURACY } from './likelihood-ratios.ts';
import { nextTests } from './next-test.ts';
import { observe } from './observe.ts';
import { cellsOfNumber } from './observe-lab.ts';
import { afterTest, estimate } from './probability.ts';
import { smallestSets } from './smallest-sets.ts';
import { TEST_IDS, TESTS, type TestId } from './tests.ts';
import { workUp } from './work-up.ts';

const TODAY = '2026-11-25';

/** Anything between nothing and everything known: one possible cell, some, or all, test by test. */
const anyObservation: fc.Arbitrary<Observation> = fc.tuple(
  ...TEST_IDS.map((id) =>
    fc.oneof(
      { weight: 3, arbitrary: fc.nat(CELLS[id].length - 1).map((c) => 1 << c) },
      { weight: 2, arbitrary: fc.constant(everyCell(id)) },
      { weight: 1, arbitrary: fc.integer({ min: 1, max: everyCell(id) }) },
    ),
  ),
) as fc.Arbitrary<number[]>;

describe('the tables', () => {
  test('INF-1 the definitions shown first are the 2018 definition and EBJIS 2021', () => {
    expect(SHOWN_FIRST).toEqual(['parvizi-2018', 'ebjis-2021']);
    expect(DEFINITIONS.slice(0, 2).map((d) => d.id)).toEqual(SHOWN_FIRST);
  });

  test('INF-1 every line names results that exist, every rule a class and tallies that exist, and all fit', () => {
    for (const { definition, fields, blocks } of COMPILED) {
      const tallies = new Set(Object.keys(definition.tallies));
      for (const l of definition.lines)
        for (const adds of [l.met, l.notMet, l.known])
          for (const t of Object.keys(adds ?? {})) expect(tallies).toContain(t);
      for (const r of definition.rules) {
        expect(definition.classes.map((c) => c.id)).toContain(r.gives);
        for (const c of r.when) for (const t of Object.keys(c.sum)) expect(tallies).toContain(t);
      }
      expect(definition.rules.at(-1)?.when).toEqual([]);
      expect(fields.at(-1)!.shift).toBeLessThan(30);
      const names = JSON.stringify(definition.lines.map((l) => l.when)).match(/"is":\[[^\]]*\]/g) ?? [];
      const known = new Set(TEST_IDS.flatMap((id) => CELLS[id].map((c) => c.label)));
      for (const n of names.flatMap((m) => JSON.parse(m.slice(5)) as string[])) expect(known).toContain(n);
      expect(blocks.flatMap((b) => b.lines)).toHaveLength(definition.lines.length);
    }
  });

  test('INF-1 the most that a score can reach is the most that its lines can add', () => {
    for (const a of assessAll(NOTHING_KNOWN)) if (a.score) expect(a.score.atMost).toBe(a.score.max);
  });

  test('INF-2 numbers are cut at the limits of the definitions, and every number has one cell', () => {
    expect(CELLS['synovial-wbc'].map((c) => c.label)).toEqual([
      '1,500 /uL or less',
      'over 1,500 to 3,000 /uL',
      'over 3,000 to 10,000 /uL',
      'over 10,000 /uL',
    ]);
    fc.assert(
      fc.property(
        fc.constantFrom<TestId>('crp', 'esr', 'synovial-wbc', 'synovial-pmn'),
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        (id, value) => {
          expect(cellsIn(cellsOfNumber(id, { kind: 'number', value, comparator: null }))).toHaveLength(1);
        },
      ),
    );
  });
});

describe('three values', () => {
  test('INF-3 knowing less never turns a line from met to not met or back: it stays, or is not known', () => {
    fc.assert(
      fc.property(anyObservation, fc.constantFrom(...TEST_IDS), (known, id) => {
        const less = assessAll(known.with(AT[id], everyCell(id)));
        assessAll(known).forEach((a, i) => {
          a.lines.forEach((l, j) => {
            expect([l.status, 'not-known']).toContain(less[i]!.lines[j]!.status);
          });
        });
      }),
      { numRuns: 60 },
    );
  });

  test('INF-4 the class so far lies in reach, the score between its ends, and what is settled stays', () => {
    fc.assert(
      fc.property(anyObservation, (known) => {
        for (const a of assessAll(known)) {
          if (a.score) {
            expect(a.score.atLeast).toBeLessThanOrEqual(a.score.atMost);
            if (a.score.label === 'points') expect(a.score.soFar).toBe(a.score.atLeast);
          }
          const full = known.map((m) => m & -m);
          expect(a.possible.map((c) => c.id)).toContain(assessOne(a.definition, full).class.id);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('INF-4 same input, same answer', () => {
    fc.assert(
      fc.property(anyObservation, (known) => {
        expect(assessAll(known)).toEqual(assessAll([...known]));
      }),
      { numRuns: 30 },
    );
  });
});

/** The result most in favour of infection that a test alone can have, given what is known of the others. */
const raised = (known: Observation, id: TestId): readonly number[] => {
  const cells = cellsIn(known[AT[id]]!);
  const higher = cells.length > 1 ? [CELLS[id].length - 1] : CELLS[id].map((_, i) => i).filter((i) => i > cells[0]!);
  const grew = cellsIn(known[AT['aspirate-culture']]!)[0]! > 0;
  return higher.filter((i) => grew || !CELLS[id][i]!.label.startsWith('same organism as the aspirate'));
};

describe('adding a positive', () => {
  test('INF-4 never lowers the class of a definition', () => {
    const evidence = TEST_IDS.filter((id) => id !== 'phase');
    const whole = fc.tuple(
      ...TEST_IDS.map((id) =>
        fc.oneof(
          fc.constant(everyCell(id)),
          fc.nat(CELLS[id].length - 1).map((c) => 1 << c),
        ),
      ),
    ) as fc.Arbitrary<number[]>;
    fc.assert(
      fc.property(whole, fc.constantFrom(...evidence), (known, id) => {
        const impossible =
          cellsIn(known[AT['tissue-culture']]!).some((c) => c === 3 || c === 4) && known[AT['aspirate-culture']] === 1;
        fc.pre(!impossible);
        const before = assessAll(known);
        for (const cell of raised(known, id))
          assessAll(known.with(AT[id], 1 << cell)).forEach((after, i) => {
            if (after.definition === 'waiot-2019') return;
            expect(after.class.rank).toBeGreaterThanOrEqual(before[i]!.class.rank);
          });
      }),
      { numRuns: 400 },
    );
  });

  test('INF-4 never lowers the balance of WAIOT', () => {
    fc.assert(
      fc.property(
        anyObservation,
        fc.constantFrom<TestId>('il-6', 'procalcitonin', 'crp', 'esr', 'synovial-wbc'),
        (known, id) => {
          const top = known.with(AT[id], 1 << (CELLS[id].length - 1));
          const of = (k: Observation) => assessOne('waiot-2019', k).score!.soFar;
          expect(of(top)).toBeGreaterThanOrEqual(of(known.with(AT[id], everyCell(id))));
          expect(of(top)).toBeGreaterThanOrEqual(of(known.with(AT[id], 1)));
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the record', () => {
  const labResults: readonly LabResult[] = [
    { id: 'a', analyte: 'crp', value: 24, unit: 'mg/L', takenOn: '2026-11-01' },
    { id: 'b', analyte: 'crp', value: 3, unit: 'mg/L', takenOn: '2026-10-01' },
    { id: 'c', analyte: 'synovial-wbc', value: 4200, unit: '/uL', takenOn: '2026-11-01' },
    { id: 'd', analyte: 'synovial-pmn', value: 70, unit: '%', takenOn: '2026-11-01' },
    { id: 'e', analyte: 'd-dimer', value: 900, unit: 'ng/mL FEU', takenOn: '2026-11-01' },
  ];
  const cultures: readonly CultureSample[] = [
    { id: '1', from: 'aspirate', growth: 'none' },
    {
      id: '2',
      from: 'tissue',
      growth: 'growth',
      organisms: [{ name: 'Staphylococcus capitis', kind: 'common-contaminant' }],
    },
    { id: '3', from: 'tissue', growth: 'none' },
  ];
  const findings: InfectionFindings = Object.freeze({ lastOperationOn: '2019-01-01', labResults, cultures });

  test('INF-9 order of entry never matters', () => {
    const wanted = workUp(findings, TODAY);
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...labResults], { minLength: labResults.length }),
        fc.shuffledSubarray([...cultures], { minLength: cultures.length }),
        (l, c) => {
          const shuffled = workUp({ ...findings, labResults: l, cultures: c }, TODAY);
          expect(shuffled.assessments).toEqual(wanted.assessments);
        },
      ),
    );
  });

  test('INF-9 scaling units changes nothing', () => {
    const scaled = labResults.map((r): LabResult => {
      if (r.analyte === 'crp') return { ...r, value: Number(r.value) / 10, unit: 'mg/dL' };
      if (r.analyte === 'synovial-wbc') return { ...r, value: Number(r.value) / 1000, unit: 'x10^9/L' };
      return r.analyte === 'd-dimer' ? { ...r, value: Number(r.value) / 1000, unit: 'mg/L FEU' } : r;
    });
    expect(workUp({ ...findings, labResults: scaled }, TODAY).assessments).toEqual(workUp(findings, TODAY).assessments);
  });

  test('INF-3 an absent field and "unknown" are one thing, and neither is "no"', () => {
    const unknown = workUp(
      { sinus: 'unknown', purulence: 'unknown', histology: 'unknown', boneScan: 'unknown' },
      TODAY,
    );
    expect(unknown.observed.known).toEqual(observe({}, TODAY).known);
    expect(observe({ sinus: 'no' }, TODAY).known).not.toEqual(observe({}, TODAY).known);
  });

  test('INF-11 what cannot change a class any more is said so: after a sinus only WAIOT is still open', () => {
    const { known } = observe({ lastOperationOn: '2019-01-01', sinus: 'yes' }, TODAY);
    const next = nextTests(known, { horizon: 'all' });
    const settled = assessAll(known).filter((a) => a.definition !== 'waiot-2019');
    expect(settled.every((a) => a.settled && a.class.standing === 'confirmed')).toBe(true);
    for (const t of next.tests) expect(t.canChange).toEqual(['waiot-2019']);
    expect(next.cannotChange).toContain('synovial-pmn');
  });

  test('INF-12 with CRP 24 an organism in two taps or four more points could confirm by the 2018 definition', () => {
    const { known } = observe({ lastOperationOn: '2019-01-01', sinus: 'no', labResults: [labResults[0]!] }, TODAY);
    const { confirm, exclude } = smallestSets('parvizi-2018', known, 'before');
    const named = confirm.sets.map((s) => s.tests.map((t) => t.test).join(' + '));
    // Four more points: white cells, strip or alpha-defensin give 3, the share 2, ESR and synovial CRP 1 each.
    const three = ['synovial-wbc', 'leukocyte-esterase', 'alpha-defensin'];
    const pairs = three.flatMap((t) => ['esr', 'synovial-pmn', 'synovial-crp'].map((o) => [t, o]));
    const wanted = [
      ...pairs,
      ['synovial-wbc', 'alpha-defensin'],
      ['leukocyte-esterase', 'alpha-defensin'],
      ['esr', 'synovial-pmn', 'synovial-crp'],
      ['aspirate-culture'],
    ];
    expect(named.toSorted()).toEqual(
      wanted.map((w) => w.toSorted((a, b) => AT[a as TestId] - AT[b as TestId]).join(' + ')).toSorted(),
    );
    expect(named[0]).toBe('aspirate-culture');
    expect(exclude.state).toBe('never');
  });

  test('INF-11 a full answer for one patient comes within 50 ms', () => {
    const { known } = observe({ lastOperationOn: '2019-01-01', sinus: 'no', labResults }, TODAY);
    const run = () => {
      const start = performance.now();
      nextTests(known, { horizon: 'all' });
      for (const id of SHOWN_FIRST) smallestSets(id, known, 'before');
      return performance.now() - start;
    };
    expect(Math.min(...Array.from({ length: 5 }, run))).toBeLessThan(50);
  });
});

describe('probability', () => {
  const only = (id: TestId, cell: number): Observation => NOTHING_KNOWN.with(AT[id], 1 << cell);
  const after = (known: Observation, pretest: number, method?: 'laboratory' | 'lateral-flow') => {
    const e = estimate(known, { pretest, ...(method ? { defensinMethod: method } : {}) });
    return e.ok ? Math.round((e.value.combined?.value ?? Number.NaN) * 1000) / 10 : null;
  };

  // Post-test probability in percent at 5, 20 and 50 %, derived by hand from the published ratios.
  test.each([
    ['CRP positive', only('crp', 1), undefined, [16, 47, 78]],
    ['CRP negative', only('crp', 0), undefined, [1, 6, 21]],
    ['alpha-defensin in the laboratory, positive', only('alpha-defensin', 1), 'laboratory', [65, 90, 97]],
    ['alpha-defensin in the laboratory, negative', only('alpha-defensin', 0), 'laboratory', [0.2, 1, 4]],
    ['alpha-defensin lateral flow, positive', only('alpha-defensin', 1), 'lateral-flow', [53, 84, 96]],
    ['alpha-defensin lateral flow, negative', only('alpha-defensin', 0), 'lateral-flow', [0.7, 3, 12]],
    ['frozen section positive', only('histology', 3), undefined, [39, 75, 92]],
    ['frozen section negative', only('histology', 0), undefined, [1, 5, 19]],
  ] as const)('INF-14 %s', (_, known, method, wanted) => {
    [0.05, 0.2, 0.5].forEach((pretest, i) => {
      const found = after(known, pretest, method)!;
      expect(wanted[i]! < 1 ? found : Math.round(found)).toBe(wanted[i]);
    });
  });

  test('INF-14 synovial tests are never multiplied: a second one changes nothing and is said to be left out', () => {
    const one = only('alpha-defensin', 1);
    const two = one.with(AT['leukocyte-esterase'], 2).with(AT['synovial-crp'], 2).with(AT['synovial-wbc'], 8);
    expect(after(two, 0.2)).toBe(after(one, 0.2));
    const e = estimate(two, { pretest: 0.2 });
    expect(e.ok && e.value.usedInCombined).toEqual(['alpha-defensin']);
    expect(e.ok && e.value.leftOut.map((l) => [l.test, l.why])).toEqual([
      ['synovial-wbc', 'no pooled ratio'],
      ['leukocyte-esterase', 'same group as a test already used'],
      ['synovial-crp', 'same group as a test already used'],
    ]);
    expect(e.ok && e.value.label).toContain('no definition uses');
  });

  test('INF-14 every interval holds its ratio, and the estimate lies in its own', () => {
    for (const a of ACCURACY) {
      if (a.positiveInterval) expect(a.positive).toBeGreaterThanOrEqual(a.positiveInterval[0] * 0.99);
      if (a.positiveInterval) expect(a.positive).toBeLessThanOrEqual(a.positiveInterval[1] * 1.01);
      if (a.negativeInterval) expect(a.negative).toBeGreaterThanOrEqual(a.negativeInterval[0] * 0.99);
      if (a.negativeInterval) expect(a.negative).toBeLessThanOrEqual(a.negativeInterval[1] * 1.01);
    }
    const e = estimate(only('crp', 1).with(AT.histology, 1), { pretest: 0.3 });
    const combined = e.ok ? e.value.combined! : null;
    expect(combined!.interval![0]).toBeLessThan(combined!.value);
    expect(combined!.interval![1]).toBeGreaterThan(combined!.value);
  });

  test('INF-14 a pre-test value outside 0 to 1 is refused, a ratio of 1 moves nothing', () => {
    for (const pretest of [0, 1, -0.1, Number.NaN]) expect(estimate(NOTHING_KNOWN, { pretest }).ok).toBe(false);
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        (p, lr) => {
          expect(afterTest(p, 1)).toBeCloseTo(p, 12);
          expect(afterTest(afterTest(p, lr), 1 / lr)).toBeCloseTo(p, 9);
        },
      ),
    );
  });

  test('INF-14 no estimate without a result that has a ratio', () => {
    const e = estimate(only('synovial-wbc', 3), { pretest: 0.2 });
    expect(e.ok && e.value.combined).toBeNull();
    expect(TESTS['synovial-wbc'].stage).toBe('before');
  });
});
