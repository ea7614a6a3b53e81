import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cumulativeIncidence, incidenceAt } from './cumulative-incidence.ts';
import { eventTable, type FollowUp } from './follow-up.ts';
import { type IntervalScale, kaplanMeier, medianTime, survivalAt } from './kaplan-meier.ts';
import { logRank } from './log-rank.ts';

// Reference: R 4.2.2 with its package survival 3.5-3; data of Freireich 1963, Miller and the Veterans trial. See testdata.

const read = (file: string) => readFileSync(new URL(`./testdata/${file}`, import.meta.url), 'utf8');
const table = (file: string) =>
  read(file)
    .trim()
    .split('\n')
    .slice(1)
    .map((l) => l.replaceAll('"', '').split(','));
const REFERENCE = JSON.parse(read('reference_results.json')) as Record<
  string,
  {
    readonly obs: readonly number[];
    readonly exp: readonly number[];
    readonly chisq: number;
    readonly p: number;
    readonly median: readonly (number | 'NA')[];
    readonly median_lo: readonly (number | 'NA')[];
    readonly median_hi: readonly (number | 'NA')[];
    readonly logrank: {
      readonly obs: readonly number[];
      readonly exp: readonly number[];
      readonly chisq: number;
      readonly p: number;
    };
  }
>;

/** Groups of a data set, by the name in the given column, in the order of the names. */
function groupsOf(set: string, column = 2): ReadonlyMap<string, readonly FollowUp[]> {
  const groups = new Map<string, FollowUp[]>();
  for (const row of table(`${set}.csv`).toSorted((a, b) => (a[column]! < b[column]! ? -1 : 1)))
    groups.set(row[column]!, [
      ...(groups.get(row[column]!) ?? []),
      { time: Number(row[0]), event: row[1] === '1' ? 'event' : null },
    ]);
  return groups;
}

const SETS = ['leukemia_6mp_freireich1963', 'aml_maintenance_miller', 'veteran_lung'];
const SCALES: readonly IntervalScale[] = ['plain', 'log', 'log-log'];
const steps = (followUps: readonly FollowUp[], scale: IntervalScale = 'log') => {
  const found = kaplanMeier(followUps, scale);
  return found.ok ? found.value : [];
};

describe.each(SETS.flatMap((set) => SCALES.map((scale) => [set, scale] as const)))('%s, %s', (set, scale) => {
  test('SURV-2 survival, standard error and interval agree with R at every time', () => {
    for (const [name, followUps] of groupsOf(set)) {
      const rows = table(`${set}_km_${scale}.csv`).filter((r) => r[0] === `group=${name}` && Number(r[3]) > 0);
      const found = steps(followUps, scale);
      expect(found.map((s) => [s.time, s.atRisk, s.events])).toEqual(
        rows.map((r) => [1, 2, 3].map((c) => Number(r[c]))),
      );
      found.forEach((s, i) => {
        const [survival, error, low, high] = rows[i]!.slice(4).map(Number);
        expect(s.survival).toBeCloseTo(survival!, 10);
        if (s.interval === null) {
          expect(s.survival).toBe(0);
          return;
        }
        expect(s.standardError).toBeCloseTo(error!, 10);
        expect(s.interval[0]).toBeCloseTo(low!, 9);
        expect(s.interval[1]).toBeCloseTo(high!, 9);
      });
    }
  });
});

describe.each(SETS)('%s', (set) => {
  test('SURV-2 median time and its limits agree with R', () => {
    const medians = [...groupsOf(set).values()].map((g) => medianTime(steps(g)));
    const of = (values: readonly (number | null)[]) => values.map((v) => v ?? 'NA');
    expect(of(medians.map((m) => m.median))).toEqual(REFERENCE[set]!.median);
    expect(of(medians.map((m) => m.low))).toEqual(REFERENCE[set]!.median_lo);
    expect(of(medians.map((m) => m.high))).toEqual(REFERENCE[set]!.median_hi);
  });

  test('SURV-3 log-rank agrees with R', () => {
    const found = logRank([...groupsOf(set).values()]);
    const wanted = REFERENCE[set]!.logrank;
    expect(found.ok && found.value.observed).toEqual(wanted.obs);
    if (!found.ok) return;
    for (const [i, e] of found.value.expected.entries()) expect(e).toBeCloseTo(wanted.exp[i]!, 8);
    expect(found.value.chiSquare).toBeCloseTo(wanted.chisq, 8);
    expect(found.value.p).toBeCloseTo(wanted.p, 9);
  });
});

test('SURV-3 log-rank over four groups agrees with R', () => {
  const found = logRank([...groupsOf('veteran_lung', 3).values()]);
  const wanted = REFERENCE.veteran_celltype_4groups!;
  expect(found.ok && [found.value.degrees, found.value.observed]).toEqual([3, wanted.obs]);
  expect(found.ok && found.value.chiSquare).toBeCloseTo(wanted.chisq, 8);
  expect(found.ok && found.value.p).toBeCloseTo(wanted.p, 9);
});

const CAUSES = ['revision', 'death'];
const anyFollowUps = fc.array(
  fc.record({ time: fc.integer({ min: 0, max: 12 }), event: fc.constantFrom('revision', 'death', null) }),
  { minLength: 1, maxLength: 40 },
);
const incidence = (followUps: readonly FollowUp[], cause: string) => {
  const found = cumulativeIncidence(followUps, cause);
  return found.ok ? found.value : [];
};

describe('competing events', () => {
  test('SURV-4 the incidences of all causes and the share without event add up to 1', () => {
    fc.assert(
      fc.property(anyFollowUps, (followUps) => {
        const free = steps(followUps);
        const by = CAUSES.map((c) => incidence(followUps, c));
        for (const [i, s] of free.entries())
          expect(s.survival + by[0]![i]!.incidence + by[1]![i]!.incidence).toBeCloseTo(1, 12);
      }),
    );
  });

  test('SURV-4 agrees with weighting every event by the inverse of the chance of still being watched', () => {
    // An estimator that shares no step with the first: events over the Kaplan-Meier curve of being censored.
    fc.assert(
      fc.property(anyFollowUps, (followUps) => {
        const watched = (time: number) => {
          let share = 1;
          for (let t = 0; t < time; t++) {
            const left = followUps.filter((f) => f.time > t || (f.time === t && f.event === null)).length;
            const lost = followUps.filter((f) => f.time === t && f.event === null).length;
            if (left > 0) share *= 1 - lost / left;
          }
          return share;
        };
        const byWeights = (cause: string, at: number) =>
          followUps.filter((f) => f.event === cause && f.time <= at).reduce((sum, f) => sum + 1 / watched(f.time), 0) /
          followUps.length;
        for (const at of [0, 3, 6, 12])
          expect(incidenceAt(incidence(followUps, 'revision'), at)).toBeCloseTo(byWeights('revision', at), 10);
      }),
    );
  });

  test('SURV-4 with one cause it is one less the survival, with the error of Greenwood', () => {
    fc.assert(
      fc.property(anyFollowUps, (followUps) => {
        const one = followUps.map((f) => ({ ...f, event: f.event === null ? null : 'revision' }));
        const free = steps(one);
        incidence(one, 'revision').forEach((s, i) => {
          expect(s.incidence).toBeCloseTo(1 - free[i]!.survival, 12);
          if (free[i]!.standardError !== null) expect(s.standardError).toBeCloseTo(free[i]!.standardError, 9);
        });
      }),
    );
  });

  test('SURV-4 counting deaths as merely unseen overstates the revisions', () => {
    fc.assert(
      fc.property(anyFollowUps, (followUps) => {
        const naive = steps(followUps.map((f) => ({ ...f, event: f.event === 'death' ? null : f.event })));
        for (const s of incidence(followUps, 'revision'))
          expect(1 - survivalAt(naive, s.time)).toBeGreaterThanOrEqual(s.incidence - 1e-12);
      }),
    );
  });

  test('SURV-4 worked by hand: ten knees, two deaths among three revisions', () => {
    // S before: 1, .9, .8, .7, .6 at times 1 to 5: revision at 1, 3, 5, death at 2, 4; five still watched at 6.
    const followUps: readonly FollowUp[] = [
      ...[1, 3, 5].map((time) => ({ time, event: 'revision' })),
      ...[2, 4].map((time) => ({ time, event: 'death' })),
      ...Array.from({ length: 5 }, () => ({ time: 6, event: null })),
    ];
    expect(incidenceAt(incidence(followUps, 'revision'), 6)).toBeCloseTo(0.3, 12);
    expect(incidenceAt(incidence(followUps, 'death'), 6)).toBeCloseTo(0.2, 12);
    expect(incidenceAt(incidence(followUps, 'revision'), 0.5)).toBe(0);
  });
});

describe('what is asked of the data', () => {
  test('SURV-1 nobody followed and a time that is none are refused', () => {
    for (const bad of [[], [{ time: -1, event: null }], [{ time: Number.NaN, event: null }]])
      for (const found of [eventTable(bad), kaplanMeier(bad, 'log'), cumulativeIncidence(bad, 'revision')])
        expect(found.ok).toBe(false);
  });

  test('SURV-1 order of entry changes nothing and nobody seen at an event time is left out of those at risk', () => {
    fc.assert(
      fc.property(anyFollowUps, (followUps) => {
        expect(eventTable(followUps.toReversed())).toEqual(eventTable(followUps));
        const found = eventTable(followUps);
        for (const row of found.ok ? found.value : [])
          expect(row.atRisk).toBe(followUps.filter((f) => f.time >= row.time).length);
      }),
    );
  });

  test('SURV-2 every number stays within 0 and 1 and no NaN leaves', () => {
    fc.assert(
      fc.property(anyFollowUps, fc.constantFrom(...SCALES), (followUps, scale) => {
        for (const s of [
          ...steps(followUps, scale),
          ...incidence(followUps, 'revision').map((i) => ({ ...i, survival: 1 - i.incidence })),
        ]) {
          expect(s.survival).toBeGreaterThanOrEqual(-1e-12);
          expect(s.survival).toBeLessThanOrEqual(1);
          if (s.interval) for (const end of s.interval) expect(end >= 0 && end <= 1).toBe(true);
        }
      }),
    );
  });

  test('SURV-3 one group, an empty group and groups never at risk together are refused', () => {
    const seen: readonly FollowUp[] = [{ time: 5, event: 'revision' }];
    expect(logRank([seen]).ok).toBe(false);
    expect(logRank([seen, []]).ok).toBe(false);
    expect(logRank([seen, [{ time: 1, event: null }]]).ok).toBe(false);
  });
});
