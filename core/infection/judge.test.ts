import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assessOne } from './assess.ts';
import { AT, CELLS, everyCell, NOTHING_KNOWN, type Observation } from './cells.ts';
import type { DefinitionId } from './definition.ts';
import { nextTests } from './next-test.ts';
import { type Sets, smallestSets } from './smallest-sets.ts';
import type { TestId } from './tests.ts';

// The judge: definitions written out by hand as plain conditions, and every possible world tried one by one. It shares
// no scorer, no sums and no pruning with what it judges; only the list of results a test can have is common.

type Cells = Readonly<Partial<Record<TestId, number>>>;
type Truth = boolean | null;

const from = (c: Cells, id: TestId, cell: number): Truth => (c[id] === undefined ? null : c[id] >= cell);
const among = (c: Cells, id: TestId, ...cells: readonly number[]): Truth =>
  c[id] === undefined ? null : cells.includes(c[id]);
const or = (...of: readonly Truth[]): Truth => (of.includes(true) ? true : of.includes(null) ? null : false);
const and = (...of: readonly Truth[]): Truth => (of.includes(false) ? false : of.includes(null) ? null : true);
const points = (...of: readonly (readonly [Truth, number])[]) => of.reduce((s, [t, p]) => s + (t === true ? p : 0), 0);

/** Aspirate: 0 none, 1 growth, 2 virulent, 3 twice. Tissue: 0 none, 1 growth, 2 virulent, 3 and 4 as aspirate, 5 twice. */
function twoSame(c: Cells, tapsCount: boolean): Truth {
  const [a, t] = [c['aspirate-culture'], c['tissue-culture']];
  if (t === 5 || (tapsCount && a === 3)) return true;
  if (t === 3 || t === 4) return a === undefined ? null : a >= 1;
  if (t === undefined) return null;
  return tapsCount && a === undefined ? null : false;
}
const single = (c: Cells) => or(from(c, 'aspirate-culture', 1), from(c, 'tissue-culture', 1));
const seen = (...of: readonly Truth[]) => of.some((t) => t !== null);

function parvizi(c: Cells): string {
  const majors = [twoSame(c, true), from(c, 'sinus', 1)];
  const serum = [or(from(c, 'crp', 1), from(c, 'd-dimer', 1)), from(c, 'esr', 1)] as const;
  const fluid = [
    or(from(c, 'synovial-wbc', 2), from(c, 'leukocyte-esterase', 1)),
    from(c, 'alpha-defensin', 1),
    from(c, 'synovial-pmn', 3),
    from(c, 'synovial-crp', 1),
  ] as const;
  const opened = [from(c, 'histology', 3), from(c, 'purulence', 1), single(c)] as const;
  if (majors.includes(true)) return 'infected';
  const pre = points([serum[0], 2], [serum[1], 1], [fluid[0], 3], [fluid[1], 3], [fluid[2], 2], [fluid[3], 1]);
  const during = points([opened[0], 3], [opened[1], 3], [opened[2], 2]);
  const done = opened.filter((t) => t !== null).length;
  if (pre + during >= 6) return 'infected';
  if (done === 3) return pre + during >= 4 ? 'inconclusive' : 'not-infected';
  if (during > 0 && pre + during >= 4) return 'inconclusive';
  if (pre >= 2) return 'possibly';
  if (!seen(...majors, ...serum, ...fluid, ...opened)) return 'not-assessed';
  return seen(...fluid) ? 'not-infected' : 'no-fluid';
}

function icm2013(c: Cells): string {
  const late = among(c, 'phase', 0);
  const early = among(c, 'phase', 1);
  const both = (chronic: Truth, acute: Truth): Truth => {
    if (c.phase === undefined) return chronic === acute ? chronic : null;
    return or(and(late, chronic), and(early, acute));
  };
  const majors = [twoSame(c, true), from(c, 'sinus', 1)];
  const minors = [
    both(and(from(c, 'crp', 1), from(c, 'esr', 1)), from(c, 'crp', 2)),
    or(both(from(c, 'synovial-wbc', 2), from(c, 'synovial-wbc', 3)), from(c, 'leukocyte-esterase', 1)),
    both(from(c, 'synovial-pmn', 3), from(c, 'synovial-pmn', 4)),
    from(c, 'histology', 3),
    single(c),
  ];
  if (majors.includes(true)) return 'infected';
  if (minors.filter((m) => m === true).length >= 3) return 'infected';
  return seen(...majors, ...minors) ? 'not-met' : 'not-assessed';
}

function ebjis(c: Cells): string {
  const confirming = [
    from(c, 'sinus', 1),
    from(c, 'synovial-wbc', 2),
    from(c, 'synovial-pmn', 3),
    from(c, 'alpha-defensin', 1),
    twoSame(c, false),
    from(c, 'sonication', 3),
    from(c, 'histology', 2),
  ];
  const links = [
    among(c, 'loosening', 2),
    from(c, 'wound-problem', 1),
    from(c, 'fever', 1),
    among(c, 'purulence', 3),
    from(c, 'crp', 1),
  ];
  const tests = [
    from(c, 'synovial-wbc', 1),
    from(c, 'synovial-pmn', 1),
    from(c, 'aspirate-culture', 1),
    from(c, 'tissue-culture', 1),
    from(c, 'sonication', 2),
    from(c, 'histology', 1),
    from(c, 'leukocyte-scan', 1),
  ];
  if (confirming.includes(true)) return 'confirmed';
  if (links.includes(true) && tests.includes(true)) return 'likely';
  if (links.includes(true) || tests.includes(true) || c.sonication === 1) return 'gap';
  const worked = (['sinus', 'crp', 'synovial-wbc', 'synovial-pmn'] as const).every((id) => c[id] !== undefined);
  const sterile = c['aspirate-culture'] === 0 || c['tissue-culture'] === 0;
  if (worked && sterile) return 'unlikely';
  return seen(...confirming, ...links, ...tests) ? 'insufficient' : 'not-assessed';
}

function proposed(c: Cells): string {
  const early = c.phase === 1;
  const majors = [twoSame(c, true), from(c, 'sinus', 1)];
  const slots: readonly (readonly [Truth, number])[] = [
    [early ? from(c, 'crp', 2) : or(from(c, 'crp', 1), from(c, 'd-dimer', 1)), 2],
    [early ? false : from(c, 'esr', 1), 1],
    [or(from(c, 'synovial-wbc', early ? 3 : 2), from(c, 'leukocyte-esterase', 1), from(c, 'alpha-defensin', 1)), 3],
    [from(c, 'synovial-pmn', early ? 4 : 2), 2],
    [single(c), 2],
    [from(c, 'histology', 3), 3],
    [from(c, 'purulence', 2), 3],
  ];
  if (majors.includes(true)) return 'infected';
  const sum = points(...slots);
  if (sum >= 3) return sum >= 6 ? 'infected' : 'inconclusive';
  return seen(...majors, ...slots.map(([t]) => t)) ? 'not-infected' : 'not-assessed';
}

function waiot(c: Cells): string {
  const ruleIn = [
    or(from(c, 'sinus', 1), from(c, 'purulence', 1)),
    from(c, 'il-6', 1),
    from(c, 'procalcitonin', 1),
    from(c, 'leukocyte-esterase', 1),
    from(c, 'leukocyte-marrow-scan', 1),
    from(c, 'aspirate-culture', 1),
    from(c, 'synovial-wbc', 2),
    from(c, 'alpha-defensin', 1),
    from(c, 'histology', 3),
  ];
  const ruleOut = [
    from(c, 'esr', 1),
    from(c, 'crp', 1),
    from(c, 'synovial-wbc', 1),
    from(c, 'alpha-defensin', 1),
    from(c, 'leukocyte-esterase', 1),
    from(c, 'bone-scan', 1),
  ];
  const done = (of: readonly Truth[]) => of.filter((t) => t !== null).length;
  if (done(ruleIn) < 2 || done(ruleOut) < 2) return 'too-few';
  const balance = ruleIn.filter((t) => t === true).length - ruleOut.filter((t) => t === false).length;
  if (c['local-signs'] === 2 && balance >= 1) return 'high-grade';
  if ((c['local-signs'] ?? 0) >= 1 && c.unexplained === 1 && balance >= 0) return 'low-grade';
  if (c.unexplained !== 0 || balance >= 0) return 'no-row';
  if (or(from(c, 'histology', 3), twoSame(c, true), from(c, 'sonication', 1)) === true) return 'biofilm';
  if (single(c) === true && c.histology === 0) return 'contamination';
  return c['tissue-culture'] === 0 && c['aspirate-culture'] === 0 ? 'no-infection' : 'by-culture';
}

interface Judged {
  readonly id: DefinitionId;
  readonly classOf: (c: Cells) => string;
  readonly tests: readonly TestId[];
  readonly excluded: readonly string[];
  readonly confirmed: readonly string[];
}

const FLUID: readonly TestId[] = ['synovial-wbc', 'synovial-pmn', 'leukocyte-esterase', 'alpha-defensin'];
const JUDGED: readonly Judged[] = [
  {
    id: 'parvizi-2018',
    classOf: parvizi,
    tests: [
      ...(['sinus', 'crp', 'esr', 'd-dimer'] as const),
      ...FLUID,
      ...(['synovial-crp', 'aspirate-culture', 'purulence', 'histology', 'tissue-culture'] as const),
    ],
    excluded: ['not-infected'],
    confirmed: ['infected'],
  },
  {
    id: 'icm-2013',
    classOf: icm2013,
    tests: [
      ...(['sinus', 'crp', 'esr'] as const),
      ...FLUID.slice(0, 3),
      ...(['aspirate-culture', 'histology', 'tissue-culture'] as const),
    ],
    excluded: ['not-met'],
    confirmed: ['infected'],
  },
  {
    id: 'icm-2018-proposed',
    classOf: proposed,
    tests: [
      ...(['sinus', 'crp', 'esr', 'd-dimer'] as const),
      ...FLUID,
      ...(['aspirate-culture', 'purulence', 'histology', 'tissue-culture'] as const),
    ],
    excluded: ['not-infected'],
    confirmed: ['infected'],
  },
  {
    id: 'waiot-2019',
    classOf: waiot,
    tests: [
      ...([
        'sinus',
        'crp',
        'esr',
        'il-6',
        'procalcitonin',
        'leukocyte-esterase',
        'leukocyte-marrow-scan',
        'synovial-wbc',
        'alpha-defensin',
        'aspirate-culture',
      ] as const),
      ...([
        'local-signs',
        'unexplained',
        'bone-scan',
        'purulence',
        'histology',
        'tissue-culture',
        'sonication',
      ] as const),
    ],
    excluded: ['contamination', 'no-infection'],
    confirmed: ['high-grade', 'low-grade', 'biofilm'],
  },
  {
    id: 'ebjis-2021',
    classOf: ebjis,
    tests: [
      ...(['sinus', 'crp'] as const),
      ...FLUID.filter((t) => t !== 'leukocyte-esterase'),
      ...([
        'aspirate-culture',
        'loosening',
        'wound-problem',
        'fever',
        'leukocyte-scan',
        'bone-scan',
        'unexplained',
      ] as const),
      ...(['purulence', 'histology', 'tissue-culture', 'sonication'] as const),
    ],
    excluded: ['unlikely'],
    confirmed: ['confirmed'],
  },
];

const observation = (c: Cells): Observation => {
  const known = [...NOTHING_KNOWN];
  for (const [id, cell] of Object.entries(c)) known[AT[id as TestId]] = 1 << cell;
  return known;
};

/** Every way to give each test one of its results; with `orUndone` also to leave it. */
function worlds(c: Cells, open: readonly TestId[], orUndone = false): readonly Cells[] {
  return open.reduce<readonly Cells[]>(
    (ways, id) =>
      ways.flatMap((w) => [...(orUndone ? [w] : []), ...CELLS[id].map((_, cell) => ({ ...w, [id]: cell }))]),
    [c],
  );
}

const OPEN = 4;

/** A patient with up to four tests not known; results lean towards the lowest so that no definition is settled at once. */
const patient = (of: Judged) =>
  fc
    .record({
      open: fc.subarray([...of.tests], { minLength: 1, maxLength: OPEN }),
      cells: fc.array(fc.oneof({ weight: 5, arbitrary: fc.constant(0) }, { weight: 2, arbitrary: fc.nat(5) }), {
        minLength: of.tests.length,
        maxLength: of.tests.length,
      }),
      phase: fc.constantFrom(0, 0, 1),
    })
    .map(({ open, cells, phase }) => {
      const known: Partial<Record<TestId, number>> = { phase };
      of.tests.forEach((id, i) => {
        if (!open.includes(id)) known[id] = Math.min(cells[i]!, CELLS[id].length - 1);
      });
      return { known: known as Cells, open };
    });

const testSets = (sets: Sets) => [...new Set(sets.sets.map((s) => s.tests.map((t) => t.test).join()))].toSorted();

/** Sets of tests of which no part has the property, smallest first. */
function minimal(open: readonly TestId[], has: (tests: readonly TestId[]) => boolean): readonly string[] {
  const inOrder = open.toSorted((a, b) => AT[a] - AT[b]);
  const found: (readonly TestId[])[] = [];
  const subsets = Array.from({ length: 1 << inOrder.length }, (_, m) => inOrder.filter((__, i) => (m >> i) & 1));
  for (const s of subsets.toSorted((a, b) => a.length - b.length))
    if (!found.some((f) => f.every((t) => s.includes(t))) && has(s)) found.push(s);
  return found.map((s) => s.join()).toSorted();
}

describe.each(JUDGED)('against full enumeration: $id', (of) => {
  test('INF-4 class so far and the classes still possible are exact', () => {
    fc.assert(
      fc.property(patient(of), ({ known, open }) => {
        const a = assessOne(of.id, observation(known));
        expect(a.class.id).toBe(of.classOf(known));
        const all = new Set(worlds(known, open).map(of.classOf));
        expect(new Set(a.possible.map((c) => c.id))).toEqual(all);
        expect(a.settled).toBe(all.size === 1 && all.has(a.class.id));
      }),
      { numRuns: 300, seed: 4 },
    );
  });

  test('INF-11 every result of every open test gives the class and the open classes that trying all worlds gives', () => {
    fc.assert(
      fc.property(patient(of), ({ known, open }) => {
        const next = nextTests(observation(known), { horizon: 'all', definitions: [of.id] });
        const able = open.filter((t) => {
          const rest = worlds(
            known,
            open.filter((o) => o !== t),
            true,
          );
          return rest.some((w) => CELLS[t].some((_, cell) => of.classOf({ ...w, [t]: cell }) !== of.classOf(w)));
        });
        expect(new Set(next.tests.map((t) => t.test))).toEqual(new Set(able));
        expect(new Set(next.cannotChange)).toEqual(new Set(open.filter((t) => !able.includes(t))));
        for (const t of next.tests)
          for (const r of t.results) {
            const cell = CELLS[t.test].findIndex((c) => c.label === r.result);
            const then = { ...known, [t.test]: cell };
            expect(r.after[0]!.class.id).toBe(of.classOf(then));
            expect(new Set(r.after[0]!.possible.map((c) => c.id))).toEqual(
              new Set(
                worlds(
                  then,
                  open.filter((o) => o !== t.test),
                ).map(of.classOf),
              ),
            );
          }
      }),
      { numRuns: 150, seed: 5 },
    );
  });

  test('INF-12 the smallest sets are those that trying every set and every result finds', () => {
    fc.assert(
      fc.property(patient(of), ({ known, open }) => {
        const sets = smallestSets(of.id, observation(known), 'all');
        const gives = (goal: readonly string[]) => (tests: readonly TestId[]) =>
          worlds(known, tests).some((w) => goal.includes(of.classOf(w)));
        for (const [found, goal] of [
          [sets.confirm, of.confirmed],
          [sets.exclude, of.excluded],
        ] as const) {
          const wanted = minimal(open, gives(goal));
          if (found.state === 'already') expect(wanted).toEqual(['']);
          else {
            const least = Math.min(...wanted.map((w) => w.split(',').length));
            const listed = wanted.filter((w) => w.split(',').length <= Math.max(3, least));
            expect(testSets(found)).toEqual(listed);
          }
        }
      }),
      { numRuns: 120, seed: 6 },
    );
  });

  test('INF-12 sets that exclude for certain leave no world in which the class is lifted again', () => {
    fc.assert(
      fc.property(patient(of), ({ known, open }) => {
        const found = smallestSets(of.id, observation(known), 'all').excludeForCertain;
        const wanted = minimal(open, (tests) =>
          worlds(known, tests).some((w) =>
            worlds(
              w,
              open.filter((o) => !tests.includes(o)),
            ).every((full) => of.excluded.includes(of.classOf(full))),
          ),
        );
        if (found.state === 'already') expect(wanted).toEqual(['']);
        else expect(testSets(found)).toEqual(wanted);
      }),
      { numRuns: 120, seed: 7 },
    );
  });

  test('INF-12 each listed combination of results does reach the class', () => {
    fc.assert(
      fc.property(patient(of), ({ known }) => {
        for (const set of smallestSets(of.id, observation(known), 'all').confirm.sets) {
          const ways = set.tests.reduce<readonly Cells[]>(
            (all, t) =>
              all.flatMap((w) =>
                t.results.map((r) => ({ ...w, [t.test]: CELLS[t.test].findIndex((c) => c.label === r) })),
              ),
            [known],
          );
          for (const w of ways) expect(of.confirmed).toContain(of.classOf(w));
        }
      }),
      { numRuns: 120, seed: 8 },
    );
  });
});

test('INF-3 a test not known has every cell still possible', () => {
  for (const id of Object.keys(AT) as TestId[]) expect(NOTHING_KNOWN[AT[id]]).toBe(everyCell(id));
});
