import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { drawKnees } from '../forecast/draw-knees.ts';
import { forecastOf } from '../forecast/forecast.ts';
import { FORECAST_CHOICES } from '../forecast/forecast-types.ts';
import { EXAMPLE_STATE, uncertainExample } from '../forecast/judge/example-knee.ts';
import { streamOf } from '../forecast/stream.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import { betaAfter, betaMean, betaOf, betaSd } from './beta-update.ts';
import { brierScore, calibrationBins, calibrationOf, LEAST_LENGTHS } from './calibration.ts';
import { type ComparedEvent, cellOf, compareFound } from './compare-found.ts';
import type { Found, KeptForecast } from './found.ts';
import { happened } from './happened.ts';
import { keepForecast } from './keep-forecast.ts';
import { partsOfEvent } from './kept-events.ts';
import { meanSd, normalAfter } from './normal-update.ts';
import { LEAST_CASES, type LearningCase, offeredUpdates, withOffer } from './offer-updates.ts';
import { wilsonInterval } from './wilson.ts';

const knees = drawKnees(uncertainExample(), { draws: 120, seed: 5 });
const answer = forecastOf({
  knees,
  expected: EXAMPLE_STATE,
  catalogue: demoCatalogue(),
  weights: DEFAULT_WEIGHTS,
  seed: 5,
});
const keeping = { on: '2025-06-01', coreVersion: '0.1.0' };
const kept = keepForecast(answer.forecast, { ...keeping, kitShare: 0.99 });
const first = answer.first;
if (!first) throw new Error('the example knee has a construct');

/** Everything noted, as planned. */
const asPlanned: Found = {
  on: '2025-06-16',
  femurClass: '2A',
  tibiaClass: '2A',
  mcl: 'intact',
  lcl: 'intact',
  fracture: false,
  infection: false,
  kitSufficed: true,
  femurDistalMm: { medial: 14, lateral: 13 },
  femurPosteriorMm: { medial: 12, lateral: 11 },
  tibiaMm: { medial: 18, lateral: 14 },
  used: { ...first, tibialOffset: null, femoralCone: null, femoralSleeve: null, tibialCone: null, tibialSleeve: null },
};

describe('LRN-1 what of a forecast is kept', () => {
  test('every value above 1 %, the rest of a choice as other: shares of one choice add up to 1', () => {
    for (const choice of FORECAST_CHOICES) {
      const own = kept.shares.filter((s) => partsOfEvent(s.event).field === choice);
      expect(own.reduce((sum, s) => sum + s.share, 0)).toBeCloseTo(1, 9);
      for (const s of own) if (!s.event.endsWith('=other')) expect(s.share).toBeGreaterThan(0.01);
    }
    for (const event of ['fracture=yes', 'infection=yes', 'kit=sufficed', 'tibiaClass=2B', 'mcl=intact'])
      expect(kept.shares.map((s) => s.event)).toContain(event);
    expect(kept.lengths).toHaveLength(6);
    expect(kept).toMatchObject({ seed: 5, draws: 120, ...keeping });
  });

  test('a chance that nobody stated is not kept as a forecast of never; a kit that was not chosen neither', () => {
    const notStated = [{ what: '', field: 'forecast.fractureChance', wouldChange: '' }];
    const events = keepForecast({ ...answer.forecast, notStated }, keeping).shares.map((s) => s.event);
    expect(events).not.toContain('fracture=yes');
    expect(events).toContain('infection=yes');
    expect(events).not.toContain('kit=sufficed');
  });
});

describe('LRN-2 what was forecast against what was found', () => {
  test('everything noted: of each choice and each field exactly one event came true', () => {
    const { events, notNoted, lengths } = compareFound(kept, asPlanned);
    expect(notNoted).toEqual([]);
    expect(lengths).toHaveLength(6);
    for (const field of [...FORECAST_CHOICES, 'femurClass', 'tibiaClass', 'mcl', 'lcl']) {
      const came = events.filter((e) => partsOfEvent(e.event).field === field && e.happened);
      expect([field, came.length]).toEqual([field, 1]);
    }
    expect(events.find((e) => e.event === 'kit=sufficed')?.happened).toBe(true);
    expect(events.find((e) => e.event === 'fracture=yes')?.happened).toBe(false);
  });

  test('nothing noted: nothing compared, all named', () => {
    const { events, lengths, notNoted } = compareFound(kept, { on: '2025-06-16' });
    expect([events, lengths]).toEqual([[], []]);
    expect(notNoted).toHaveLength(kept.shares.length + kept.lengths.length);
  });

  test('a part that the forecast does not name is other; none is a value; a cone unknown beside no sleeve is not noted', () => {
    const shares = [
      { event: 'insert=A', share: 0.8 },
      { event: 'insert=other', share: 0.2 },
      { event: 'tibial-zone-2=none', share: 0.7 },
    ];
    const one: KeptForecast = { ...kept, shares };
    const used = (parts: NonNullable<Found['used']>): Found => ({ on: '', used: parts });
    expect(happened('insert=other', one, used({ insert: 'B' }))).toBe(true);
    expect(happened('insert=other', one, used({ insert: 'A' }))).toBe(false);
    expect(happened('tibial-zone-2=none', one, used({ tibialCone: null, tibialSleeve: null }))).toBe(true);
    expect(happened('tibial-zone-2=none', one, used({ tibialCone: null }))).toBeNull();
    expect(happened('tibial-zone-2=none', one, used({ tibialSleeve: 'S' }))).toBe(false);
    expect(happened('mcl=unknown', one, { on: '', mcl: 'intact' })).toBeNull();
  });
});

describe('LRN-3 calibration', () => {
  test('Wilson intervals as published: Newcombe 1998 (Stat Med 17:857), table I, method 3', () => {
    const published = [
      [81, 263, 0.2553, 0.3662],
      [15, 148, 0.0624, 0.1605],
      [0, 20, 0, 0.1611],
      [1, 29, 0.0061, 0.1718],
    ] as const;
    for (const [hits, n, low, high] of published) {
      const interval = wilsonInterval(hits, n);
      expect(interval?.low).toBeCloseTo(low, 4);
      expect(interval?.high).toBeCloseTo(high, 4);
    }
    expect(wilsonInterval(0, 0)).toBeNull();
  });

  const event = (share: number, came: boolean): ComparedEvent => ({ event: 'x=y', share, happened: came });

  test('the Brier score is the sum of its parts by Murphy 1973 (J Appl Meteorol 12:595): reliability less resolution and uncertainty', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(0, 0.1, 0.4, 0.75, 1), fc.boolean()), { minLength: 1 }), (list) => {
        const events = list.map(([share, came]) => event(share, came));
        const n = events.length;
        const base = events.filter((e) => e.happened).length / n;
        let parts = base * (1 - base);
        for (const share of new Set(events.map((e) => e.share))) {
          const alike = events.filter((e) => e.share === share);
          const freq = alike.filter((e) => e.happened).length / alike.length;
          parts += (alike.length / n) * ((share - freq) ** 2 - (freq - base) ** 2);
        }
        expect(brierScore(events)?.score).toBeCloseTo(parts, 9);
        expect(brierScore(events)?.constant).toBeCloseTo(base * (1 - base), 12);
      }),
      { seed: 41 },
    );
    expect(brierScore([])).toBeNull();
    expect(brierScore([event(1, true), event(0, false)])).toMatchObject({ score: 0, skill: 1 });
  });

  test('every event falls into one bin, with its own bounds; a forecast that is right lies inside most intervals', () => {
    const { uniform } = streamOf(3, 'calibration');
    const events = Array.from({ length: 3000 }, () => {
      const share = uniform();
      return event(share, uniform() < share);
    });
    const bins = calibrationBins(events);
    expect(bins.reduce((sum, b) => sum + b.n, 0)).toBe(3000);
    expect(bins).toHaveLength(10);
    for (const b of bins) {
      expect(b.forecast).toBeGreaterThanOrEqual(b.from);
      expect(b.forecast).toBeLessThanOrEqual(b.to);
    }
    const right = bins.filter((b) => b.observed.low <= b.forecast && b.forecast <= b.observed.high).length;
    expect(right).toBeGreaterThanOrEqual(8);
    expect(calibrationBins([event(0.1, true), event(0, false), event(1, true)]).map((b) => [b.from, b.to])).toEqual([
      [0, 0.1],
      [0.9, 1],
    ]);
  });

  test('a series gathers its cases; one without anything noted adds a case and no event', () => {
    const all = calibrationOf([compareFound(kept, asPlanned), compareFound(kept, { on: '' })]);
    expect(all.cases).toBe(2);
    expect(all.events).toBe(kept.shares.length);
    expect(all.lengths.n).toBe(6);
    expect(calibrationOf([])).toMatchObject({ cases: 0, events: 0, bins: [], brier: null });
  });
});

describe('LRN-4 lengths within their forecast', () => {
  const percentiles = [1, 2, 3, 4, 5];

  test('cells from below the 5th to above the 95th percentile; on a percentile half; no spread lies in the middle', () => {
    expect([0.5, 1.5, 2.5, 3.5, 4.5, 5.5].map((v) => cellOf(v, percentiles))).toEqual([0, 1, 2, 3, 4, 5]);
    expect(cellOf(3, percentiles)).toBe(2);
    expect(cellOf(7, [7, 7, 7, 7, 7])).toBe(2);
  });

  const lengths = (spread: number, shift: number, n: number) => {
    const { normal } = streamOf(9, `lengths ${spread} ${shift}`);
    return Array.from({ length: n }, () => {
      const z = [-1.6449, -0.6745, 0, 0.6745, 1.6449];
      const foundMm = shift + spread * normal();
      return { field: 'tibiaMm.medial' as const, foundMm, percentiles: z, cell: cellOf(foundMm, z) };
    });
  };
  const chart = (spread: number, shift: number, n = 400) =>
    calibrationOf([{ events: [], lengths: lengths(spread, shift, n), notNoted: [] }]).lengths;

  test('a right forecast is flat; too sure, too wide and biased ones are found out', () => {
    const right = chart(1, 0);
    expect(right.p).toBeGreaterThan(0.01);
    expect(right.inside?.low).toBeLessThan(0.9);
    expect(right.inside?.high).toBeGreaterThan(0.9);
    expect(right.expected).toEqual([20, 80, 100, 100, 80, 20]);
    expect(chart(2, 0).inside?.high).toBeLessThan(0.9);
    expect(chart(0.4, 0).inside?.low).toBeGreaterThan(0.9);
    for (const wrong of [chart(2, 0), chart(0.4, 0), chart(1, 0.7)]) expect(wrong.p).toBeLessThan(1e-4);
  });

  test('below twenty lengths no test is made', () => {
    expect(chart(1, 0, LEAST_LENGTHS - 1).p).toBeNull();
    expect(chart(1, 0, LEAST_LENGTHS).p).not.toBeNull();
    expect(chart(1, 0, 0).inside).toBeNull();
  });
});

describe('LRN-5 an update of a chance', () => {
  test('is that of adding up likelihood and prior on a grid', () => {
    const [a, b, yes, n] = [0.5, 9.5, 3, 12];
    const grid = Array.from({ length: 200_000 }, (_, i) => (i + 0.5) / 200_000);
    const weight = grid.map((p) => p ** (a - 1 + yes) * (1 - p) ** (b - 1 + n - yes));
    const total = weight.reduce((s, w) => s + w, 0);
    const mean = grid.reduce((s, p, i) => s + p * (weight[i] ?? 0), 0) / total;
    const sd = Math.sqrt(grid.reduce((s, p, i) => s + (p - mean) ** 2 * (weight[i] ?? 0), 0) / total);
    const after = betaAfter(betaOf(0.05, 10), yes, n);
    expect(betaMean(after)).toBeCloseTo(mean, 6);
    expect(betaSd(after)).toBeCloseTo(sd, 6);
  });

  const series = (n: number, fractures: number): LearningCase[] =>
    Array.from({ length: n }, (_, i) => ({ kept, found: { ...asPlanned, fracture: i < fractures } }));

  test('is offered from five cases on, starts from what was forecast and lies between that and what came', () => {
    expect(offeredUpdates(series(LEAST_CASES - 1, 1))).toEqual([]);
    const stated = kept.shares.find((s) => s.event === 'fracture=yes')?.share ?? 0;
    const offer = offeredUpdates(series(8, 4)).find((o) => o.kind === 'chance' && o.field === 'fractureChance');
    if (offer?.kind !== 'chance') throw new Error('a chance is offered');
    expect(offer).toMatchObject({ n: 8, came: 4, priorCases: 10 });
    expect(offer.stated).toBeCloseTo(stated, 12);
    expect(offer.offered).toBeCloseTo((10 * stated + 4) / 18, 12);
  });

  test('one class worse is counted against the class that was entered: the best that was drawn', () => {
    const worse = series(6, 0).map(
      (one, i): LearningCase => ({
        ...one,
        found: { ...one.found, tibiaClass: i < 2 ? '2B' : '2A' },
      }),
    );
    const offer = offeredUpdates(worse).find((o) => o.kind === 'chance' && o.field === 'tibiaWorseChance');
    expect(offer).toMatchObject({ n: 6, came: 2 });
    const forecast = kept.shares.filter((s) => s.event === 'tibiaClass=2B' || s.event === 'tibiaClass=3');
    if (offer?.kind === 'chance')
      expect(offer.stated).toBeCloseTo(
        forecast.reduce((sum, s) => sum + s.share, 0),
        12,
      );
  });

  test('what was not noted counts in no n', () => {
    const half = series(10, 0).map(({ found }, i): LearningCase => {
      const { fracture, ...rest } = found;
      return { kept, found: i % 2 === 0 && fracture !== undefined ? { ...rest, fracture } : rest };
    });
    expect(offeredUpdates(half).find((o) => o.kind === 'chance' && o.field === 'fractureChance')?.n).toBe(5);
  });
});

describe('LRN-6 an update of the loss at removal', () => {
  test('is that of adding up likelihood and prior on a grid of means and spreads', () => {
    const prior = { mean: 0, meanWeight: 5, sd: 2, sdWeight: 5 };
    const sample = [1.5, 3, 0.5, 4, 2.5, 1];
    let [total, sumMean, sumVariance, sumSquare] = [0, 0, 0, 0];
    for (let v = 0.02; v < 120; v += 0.04)
      for (let m = -8; m < 10; m += 0.05) {
        // log of scaled inverse chi-square, of the normal prior of the mean, and of the likelihood.
        let log = -(prior.sdWeight / 2 + 1) * Math.log(v) - (prior.sdWeight * prior.sd ** 2) / (2 * v);
        log += -0.5 * Math.log(v) - (prior.meanWeight * (m - prior.mean) ** 2) / (2 * v);
        for (const x of sample) log += -0.5 * Math.log(v) - (x - m) ** 2 / (2 * v);
        const w = Math.exp(log);
        total += w;
        sumMean += w * m;
        sumSquare += w * m * m;
        sumVariance += w * v;
      }
    const after = normalAfter(prior, sample);
    expect(after.mean).toBeCloseTo(sumMean / total, 3);
    // Mean of a scaled inverse chi-square: weight / (weight - 2) times its scale.
    const meanVariance = (after.sdWeight / (after.sdWeight - 2)) * after.sd ** 2;
    expect(sumVariance / total / meanVariance).toBeCloseTo(1, 2);
    // The mean itself is Student t with `sdWeight` degrees: variance sdWeight / (sdWeight - 2) times its scale squared.
    const spreadOfMean = sumSquare / total - (sumMean / total) ** 2;
    expect(((after.sdWeight / (after.sdWeight - 2)) * meanSd(after) ** 2) / spreadOfMean).toBeCloseTo(1, 2);
  });

  test('order does not matter, and taking cases one by one is taking them together', () => {
    const prior = { mean: 0, meanWeight: 3, sd: 1.5, sdWeight: 4 };
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -20, max: 20, noNaN: true }), { minLength: 1, maxLength: 12 }),
        (sample) => {
          const together = normalAfter(prior, sample);
          const oneByOne = [...sample].reverse().reduce((belief, x) => normalAfter(belief, [x]), prior);
          expect(oneByOne.mean).toBeCloseTo(together.mean, 9);
          expect(oneByOne.sd).toBeCloseTo(together.sd, 9);
        },
      ),
      { seed: 42 },
    );
    expect(normalAfter(prior, [])).toEqual(prior);
  });

  const deeper = (by: number, n: number): LearningCase[] => {
    const median = (field: string) => kept.lengths.find((l) => l.field === field)?.percentiles[2] ?? 0;
    return Array.from({ length: n }, (_, i) => {
      const at = by + (i % 2 === 0 ? 0.5 : -0.5);
      const tibiaMm = { medial: median('tibiaMm.medial') + at, lateral: median('tibiaMm.lateral') + at };
      return { kept, found: { on: '', tibiaMm } };
    });
  };

  test('bone found deeper is offered as a part of that, more with every case, and accepted into an estimate above 0', () => {
    const offer = (n: number) => offeredUpdates(deeper(3, n)).find((o) => o.kind === 'loss');
    expect(offer(4)).toBeUndefined();
    const six = offer(6);
    const forty = offer(40);
    if (six?.kind !== 'loss' || forty?.kind !== 'loss') throw new Error('a loss is offered');
    expect(six).toMatchObject({ surface: 'tibia', n: 6 });
    expect(six.meanMm).toBeCloseTo(3, 9);
    expect(six.offeredMm).toBeCloseTo((6 * 3) / 11, 9);
    expect(forty.offeredMm).toBeGreaterThan(six.offeredMm);
    expect(forty.sdMm).toBeLessThan(six.sdMm);
    expect(forty.spreadFactor).toBeLessThan(1.2);
    const estimate = { fixation: 'cemented', surface: 'tibia', leastMm: 0, likelyMm: 1, mostMm: 3 } as const;
    expect(withOffer(estimate, six).likelyMm).toBeCloseTo(1 + six.offeredMm, 9);
    expect(withOffer(estimate, { ...six, offeredMm: -2 })).toMatchObject({ leastMm: 0, likelyMm: 0, mostMm: 1 });
  });
});
