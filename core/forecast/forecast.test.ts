import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import { openSolver } from '../gaps/many/open-solver.ts';
import { solve } from '../gaps/solve.ts';
import { bailOutWords } from './bail-out-words.ts';
import { choiceOf } from './choices.ts';
import { drawKnees } from './draw-knees.ts';
import type { DrawnKnee } from './drawn-knee.ts';
import { excessOf, HOLDS_WITHIN, partsInKind } from './excess.ts';
import { forecasting, forecastOf } from './forecast.ts';
import { type BailOut, FORECAST_CHOICES } from './forecast-types.ts';
import { CERTAIN_KNEE, EXAMPLE_STATE, uncertainExample } from './judge/example-knee.ts';
import { kindNamer } from './kind.ts';
import { percentilesOf } from './percentiles.ts';
import { typicalConstruct } from './typical-construct.ts';
import type { UncertainKnee } from './uncertain-knee.ts';

const catalogue = demoCatalogue();
const weights = DEFAULT_WEIGHTS;
const search = { catalogue, weights };

const forecast = (knees: readonly DrawnKnee[], seed = 1) =>
  forecastOf({ knees, expected: EXAMPLE_STATE, catalogue, weights, seed });
const drawn = (knee: UncertainKnee, draws: number, seed = 1) => drawKnees(knee, { draws, seed });

const ends = (tree: BailOut): Extract<BailOut, { kind: 'do' }>[] =>
  tree.kind === 'do' ? [tree] : [...ends(tree.yes), ...ends(tree.no)];

const spread = forecast(drawn(uncertainExample(), 300));

describe('FOR-9 what the plan may become', () => {
  test('the construct of every drawn knee is that of the exact solver', () => {
    for (const { knee, least } of spread.perKnee.slice(0, 25)) {
      if (knee.infection) expect(least).toBeNull();
      else {
        const one = solve({ state: knee.state, catalogue, weights });
        expect(least?.construct ?? null).toEqual(one.kind === 'solved' ? one.answer.best.construct : null);
      }
    }
  });

  test('for each choice the shares of its values and of knees without a construct add up to 1; so do classes and ligaments', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.double({ min: 0, max: 2, noNaN: true }), (seed, times) => {
        const f = forecast(drawn(uncertainExample(times), 25, seed)).forecast;
        for (const choice of FORECAST_CHOICES) {
          const sum = f.choices.filter((c) => c.choice === choice).reduce((s, c) => s + c.share, 0);
          expect(sum + f.noConstruct + f.infection).toBeCloseTo(1, 9);
        }
        for (const field of ['femurClass', 'tibiaClass', 'mcl', 'lcl']) {
          const sum = f.events.filter((e) => e.event.startsWith(`${field}=`)).reduce((s, e) => s + e.share, 0);
          expect(sum).toBeCloseTo(1, 9);
        }
        expect(ends(f.bailOuts).reduce((s, leaf) => s + leaf.share, 0)).toBeCloseTo(1, 9);
      }),
      { numRuns: 8, seed: 31 },
    );
  });

  test('the same knees give the same bytes; the knees are left as they were', () => {
    const knees = drawn(uncertainExample(), 40, 7);
    const before = JSON.stringify(knees);
    expect(JSON.stringify(forecast(knees))).toBe(JSON.stringify(forecast(knees)));
    expect(JSON.stringify(knees)).toBe(before);
  });

  test('nothing uncertain: the plan itself, with share 1 everywhere', () => {
    const { forecast: f, first } = forecast(drawn(CERTAIN_KNEE, 20));
    expect(f).toMatchObject({ firstHolds: 1, firstBest: 1, noConstruct: 0, fracture: 0, infection: 0 });
    expect(f.most).toEqual({ construct: first, share: 1 });
    expect(f.widest).toEqual({ construct: first, share: 1 });
    expect(f.choices.every((c) => c.share === 1)).toBe(true);
    expect(f.choices.map((c) => c.choice)).toEqual([...FORECAST_CHOICES]);
    expect(f.bailOuts).toEqual({ kind: 'do', construct: first, differs: '', share: 1, pure: 1 });
    expect(bailOutWords(f.bailOuts)).toEqual([{ when: '', doing: 'as planned', share: 1, pure: 1 }]);
    for (const { percentiles } of f.lengths) expect(Math.max(...percentiles) - Math.min(...percentiles)).toBe(0);
  });

  test('no knees at all: nothing is claimed', () => {
    const { forecast: f } = forecast([]);
    expect(f).toMatchObject({
      draws: 0,
      most: null,
      firstHolds: 0,
      noConstruct: 0,
      choices: [],
      events: [],
      lengths: [],
    });
  });

  test('progress is told in steps, first knees, then bail-outs, and the work may be left at any of them', () => {
    const steps = forecasting({
      knees: drawn(uncertainExample(), 60),
      expected: EXAMPLE_STATE,
      catalogue,
      weights,
      seed: 1,
      chunk: 20,
    });
    const seen = [...steps];
    expect(seen.slice(0, 3)).toEqual([20, 40, 60].map((done) => ({ part: 'knees', done, of: 60 })));
    expect(seen.length).toBeGreaterThan(3);
    for (const { part, done, of } of seen.slice(3)) {
      expect(part).toBe('bail-outs');
      expect(done).toBeLessThanOrEqual(of);
    }
  });

  test('an infected knee gets no construct and its share is told; so is a fracture', () => {
    const never = { chance: 0, from: '' };
    const chances = { femurWorse: never, tibiaWorse: never, mclWorse: never, lclWorse: never };
    const half = { chance: 0.5, from: '' };
    const knee = { ...CERTAIN_KNEE, chances: { ...chances, fracture: half, infection: half } };
    const { forecast: f, perKnee } = forecast(drawn(knee, 60));
    expect(f.infection).toBe(perKnee.filter((p) => p.knee.infection).length / 60);
    expect(f.fracture).toBe(perKnee.filter((p) => p.knee.fracture).length / 60);
    expect(perKnee.every((p) => (p.least === null) === p.knee.infection)).toBe(true);
    expect(f.bailOuts).toMatchObject({ kind: 'ask', field: 'infection', question: 'infection is found' });
    expect(ends(f.bailOuts).map((leaf) => leaf.differs)).toEqual(['spacer, no construct', '']);
  });

  test('percentiles are those of definition 7 of Hyndman and Fan, as R gives them', () => {
    // R: quantile(1:10, c(.05, .25, .5, .75, .95)) and quantile(c(3, 1, 4, 1, 5, 9, 2, 6), same).
    const ten = percentilesOf([10, 9, 8, 7, 6, 5, 4, 3, 2, 1]);
    [1.45, 3.25, 5.5, 7.75, 9.55].forEach((v, i) => {
      expect(ten[i]).toBeCloseTo(v, 12);
    });
    const pi = percentilesOf([3, 1, 4, 1, 5, 9, 2, 6]);
    [1, 1.75, 3.5, 5.25, 7.95].forEach((v, i) => {
      expect(pi[i]).toBeCloseTo(v, 12);
    });
    expect(percentilesOf([])).toEqual([]);
  });
});

describe('FOR-10 the same in kind, and what still holds', () => {
  const first = spread.first;
  if (!first) throw new Error('the example knee has a construct');
  const kind = kindNamer(first, catalogue);

  test('inserts within 2 mm and stems of other diameters are the same; sizes, blocks, levels and stem lengths are not', () => {
    const insert = catalogue.inserts.find((i) => i.ref === first.insert);
    const at = (by: number) =>
      catalogue.inserts.find(
        (i) => i.size === insert?.size && i.level === insert.level && i.labelMm === insert.labelMm + by,
      );
    const near = at(1) ?? at(2);
    const far = at(4) ?? at(6);
    expect(near && far).toBeTruthy();
    expect(kind({ ...first, insert: near?.ref ?? '' })).toBe(kind(first));
    expect(kind({ ...first, insert: far?.ref ?? '' })).not.toBe(kind(first));
    const stem = catalogue.stems.find((s) => s.ref === first.tibialStem);
    const wider = catalogue.stems.find(
      (s) => s.fixation === stem?.fixation && s.lengthMm === stem.lengthMm && s.diameterMm !== stem.diameterMm,
    );
    const longer = catalogue.stems.find((s) => s.fixation === stem?.fixation && s.lengthMm !== stem.lengthMm);
    expect(kind({ ...first, tibialStem: wider?.ref ?? '' })).toBe(kind(first));
    expect(kind({ ...first, tibialStem: longer?.ref ?? '' })).not.toBe(kind(first));
    expect(kind({ ...first, level: 'hinge' })).not.toBe(kind(first));
    expect(kind({ ...first, tibialAugments: { medial: null, lateral: null } })).not.toBe(kind(first));
  });

  test('a construct holds where its parts cost at most the stated amount above the best, by solving with those parts alone', () => {
    const refs = partsInKind(first, catalogue);
    const own = <T extends { readonly ref: string }>(parts: readonly T[]) => parts.filter((p) => refs.has(p.ref));
    const few = {
      ...catalogue,
      femurs: own(catalogue.femurs),
      femoralAugments: own(catalogue.femoralAugments),
      trays: own(catalogue.trays),
      tibialAugments: own(catalogue.tibialAugments),
      inserts: own(catalogue.inserts),
      stems: own(catalogue.stems),
      offsetCouplers: own(catalogue.offsetCouplers),
      cones: own(catalogue.cones ?? []),
      sleeves: own(catalogue.sleeves ?? []),
      segments: own(catalogue.segments ?? []),
    };
    const holds = excessOf(first, search);
    let yes = 0;
    for (const { knee, least } of spread.perKnee.slice(0, 120)) {
      if (!least) continue;
      const with_ = solve({ state: knee.state, catalogue: few, weights });
      const right = with_.kind === 'solved' && with_.answer.best.cost <= least.cost + HOLDS_WITHIN;
      expect(holds(knee.state, least.cost) !== null).toBe(right);
      if (right) yes++;
    }
    expect(yes).toBeGreaterThan(5);
  });

  test('a knee whose best is the first choice in kind is one in which it holds', () => {
    const holds = excessOf(first, search);
    for (const { knee, least } of spread.perKnee)
      if (least && kind(least.construct) === kind(first)) expect(holds(knee.state, least.cost)).not.toBeNull();
    const { firstBest, firstHolds, widest, most } = spread.forecast;
    expect(firstBest).toBeLessThanOrEqual(firstHolds);
    expect(firstBest).toBeLessThanOrEqual(most?.share ?? 0);
    expect(firstHolds).toBeLessThanOrEqual(widest?.share ?? 0);
  });

  /** Share in which the first choice holds, without the rest of a forecast. */
  const holdingIn = (knees: readonly DrawnKnee[]): number => {
    const solver = openSolver(search);
    const excess = excessOf(first, search);
    const holding = knees.filter(({ state, infection }) => {
      const least = infection ? null : solver.least(state);
      return least !== null && excess(state, least.cost) !== null;
    });
    return holding.length / knees.length;
  };

  test('the share in which the first choice holds, counted anew', () => {
    expect(spread.forecast.firstHolds).toBeCloseTo(holdingIn(spread.perKnee.map((p) => p.knee)), 12);
  });

  test('more spread never makes the first choice hold more often on average', () => {
    const seeds = [1, 2, 3, 4, 5, 6];
    const mean = (times: number) =>
      seeds.reduce((sum, seed) => sum + holdingIn(drawn(uncertainExample(times), 50, seed)), 0) / seeds.length;
    const shares = [0, 0.5, 1, 2].map(mean);
    // Standard error of a difference of two means of 300 draws: at most 0.041.
    for (const [i, share] of shares.slice(1).entries()) expect(share).toBeLessThan((shares[i] ?? 0) + 0.041);
    expect(shares[0]).toBe(1);
    expect(shares[3]).toBeLessThan((shares[1] ?? 0) - 0.1);
  });

  test('the first choice is named by every choice of a forecast', () => {
    for (const choice of FORECAST_CHOICES) expect(choiceOf(first, choice)).not.toBe('');
  });
});

describe('FOR-9 the construct that stands for a kind', () => {
  const first = spread.first;
  if (!first) throw new Error('the example knee has a construct');
  const seated = (trayMm: number, insert = first.insert) => ({ ...first, trayMm, insert });

  test('has the most frequent parts and the middle seat, whatever the order', () => {
    const list = [seated(-9), seated(-14), seated(-12), seated(-11), seated(-12.5), seated(-30, 'another')];
    expect(typicalConstruct(list)).toEqual(seated(-12));
    expect(typicalConstruct([...list].reverse())).toEqual(seated(-12));
  });
});
