import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { expectedLossMm, lossSdMm } from '../bone/removal-loss.ts';
import { meanAndSd } from '../measure/normal-draws.ts';
import { drawKnees } from './draw-knees.ts';
import { fieldOf } from './field.ts';
import { CERTAIN_KNEE, EXAMPLE_STATE, uncertainExample } from './judge/example-knee.ts';
import { notStatedOf } from './not-stated.ts';
import { LOST_BESIDES, POSTERIOR_SHARE } from './one-class-worse.ts';
import { streamOf } from './stream.ts';
import { triangularMm } from './triangular.ts';
import { SPREAD_FIELDS, type SpreadField, type UncertainKnee } from './uncertain-knee.ts';

const N = 4000;
const column = (knee: UncertainKnee, field: SpreadField, seed = 1): readonly number[] =>
  drawKnees(knee, { draws: N, seed }).map(({ state }) => fieldOf(state, field) ?? Number.NaN);

const correlation = (a: readonly number[], b: readonly number[]): number => {
  const [x, y] = [meanAndSd(a), meanAndSd(b)];
  return a.reduce((sum, v, i) => sum + (v - x.mean) * ((b[i] ?? 0) - y.mean), 0) / (a.length - 1) / x.sd / y.sd;
};

/** Four standard errors of a share in n draws. */
const near = (share: number, n: number) => 4 * Math.sqrt((share * (1 - share)) / n);

describe('FOR-1 knees drawn from a seed', () => {
  test('the same seed gives the same bytes, another seed others', () => {
    const drawn = (seed: number) => JSON.stringify(drawKnees(uncertainExample(), { draws: 50, seed }));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
        expect(drawn(seed)).toBe(drawn(seed));
        expect(drawn(seed)).not.toBe(drawn(seed + 1));
      }),
      { numRuns: 20, seed: 1 },
    );
  });

  test('more draws leave the earlier ones as they were', () => {
    const few = drawKnees(uncertainExample(), { draws: 20, seed: 3 });
    expect(drawKnees(uncertainExample(), { draws: 60, seed: 3 }).slice(0, 20)).toEqual(few);
  });

  test('a spread that changes moves its own field and no other; a chance moves no length of the other bone', () => {
    const knee = uncertainExample();
    const before = drawKnees(knee, { draws: 200, seed: 5 });
    const wider = { ...knee, spreads: { ...knee.spreads, femurWidthMm: 3 } };
    const after = drawKnees(wider, { draws: 200, seed: 5 });
    for (const field of SPREAD_FIELDS) {
      const same = before.every((k, i) => fieldOf(k.state, field) === fieldOf(after[i]?.state ?? k.state, field));
      expect([field, same]).toEqual([field, field !== 'femurWidthMm']);
    }
    const worse = { ...knee, chances: { ...knee.chances, femurWorse: { chance: 0.9, from: '' } } };
    drawKnees(worse, { draws: 200, seed: 5 }).forEach((k, i) => {
      expect(k.state.tibiaMm).toEqual(before[i]?.state.tibiaMm);
      expect([k.fracture, k.infection]).toEqual([before[i]?.fracture, before[i]?.infection]);
    });
  });

  test('streams are uniform and normal, and those of other names or seeds have nothing in common', () => {
    const stream = streamOf(7, 'a');
    const u = Array.from({ length: N }, () => stream.uniform()).sort((a, b) => a - b);
    // Kolmogorov and Smirnov: beyond 1.95 / sqrt(n) once in a thousand.
    expect(Math.max(...u.map((v, i) => Math.abs(v - (i + 0.5) / N)))).toBeLessThan(1.95 / Math.sqrt(N));
    const normals = (seed: number, name: string) => {
      const s = streamOf(seed, name);
      return Array.from({ length: N }, () => s.normal());
    };
    const { mean, sd } = meanAndSd(normals(7, 'b'));
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(N));
    expect(Math.abs(sd - 1)).toBeLessThan(4 / Math.sqrt(2 * N));
    for (const [seed, name] of [
      [7, 'c'],
      [8, 'b'],
    ] as const)
      expect(Math.abs(correlation(normals(7, 'b'), normals(seed, name)))).toBeLessThan(4 / Math.sqrt(N));
  });

  test('nothing uncertain: every knee is the expected one', () => {
    for (const knee of drawKnees(CERTAIN_KNEE, { draws: 30, seed: 9 }))
      expect(knee).toEqual({ state: EXAMPLE_STATE, fracture: false, infection: false });
  });
});

describe('FOR-2 errors of measuring', () => {
  test('each field scatters with its own spread and what it shares, added in quadrature', () => {
    const knee: UncertainKnee = {
      ...CERTAIN_KNEE,
      spreads: { 'tibiaMm.medial': 1.2 },
      jointLineSdMm: 1.6,
      shared: [{ cause: 'scale', moves: { 'tibiaMm.medial': 0.9 } }],
    };
    const { mean, sd } = meanAndSd(column(knee, 'tibiaMm.medial'));
    const expected = Math.hypot(1.2, 1.6, 0.9);
    expect(Math.abs(mean - 17)).toBeLessThan((4 * expected) / Math.sqrt(N));
    expect(Math.abs(sd / expected - 1)).toBeLessThan(4 / Math.sqrt(2 * N));
  });

  test('the joint line takes from the femur and the flexion laxity what it gives to the tibia: gaps stay', () => {
    const knees = drawKnees({ ...CERTAIN_KNEE, jointLineSdMm: 2 }, { draws: 300, seed: 2 });
    const {
      femurDistalMm: d,
      tibiaMm: t,
      extensionLaxityMm: e,
      flexionLaxityMm: f,
      femurPosteriorMm: p,
    } = EXAMPLE_STATE;
    for (const { state } of knees)
      for (const side of ['medial', 'lateral'] as const) {
        const extension = state.femurDistalMm[side] + state.tibiaMm[side] + state.extensionLaxityMm[side];
        const flexion = state.femurPosteriorMm[side] + state.tibiaMm[side] + state.flexionLaxityMm[side];
        expect(extension).toBeCloseTo(d[side] + t[side] + e[side], 9);
        expect(flexion).toBeCloseTo(p[side] + t[side] + f[side], 9);
      }
    expect(meanAndSd(knees.map((k) => k.state.tibiaMm.medial)).sd).toBeGreaterThan(1.5);
  });

  test('a shared error moves its fields as one', () => {
    const moves = { anteriorToPosteriorMm: 2, 'femurPosteriorMm.medial': 2, 'flexionLaxityMm.medial': -2 } as const;
    const knee = { ...CERTAIN_KNEE, shared: [{ cause: 'posterior target', moves }] };
    expect(correlation(column(knee, 'anteriorToPosteriorMm'), column(knee, 'femurPosteriorMm.medial'))).toBeCloseTo(
      1,
      9,
    );
    expect(correlation(column(knee, 'anteriorToPosteriorMm'), column(knee, 'flexionLaxityMm.medial'))).toBeCloseTo(
      -1,
      9,
    );
  });
});

describe('FOR-3 what no draw goes below', () => {
  test('finite numbers in, finite numbers out; canals, widths and the contact stay possible; what was not measured stays so', () => {
    fc.assert(
      fc.property(fc.integer(), fc.double({ min: 0, max: 40, noNaN: true }), (seed, times) => {
        const expected = { ...EXAMPLE_STATE, tibiaCanalMm: null };
        const knee = { ...uncertainExample(Math.min(times, 4)), expected };
        const wild = { ...knee, spreads: Object.fromEntries(SPREAD_FIELDS.map((field) => [field, times])) };
        for (const { state } of drawKnees(wild, { draws: 20, seed })) {
          for (const field of SPREAD_FIELDS) expect(Number.isFinite(fieldOf(state, field) ?? 0)).toBe(true);
          expect(state.tibiaCanalMm).toBeNull();
          expect(state.femurCanalMm).toBeGreaterThanOrEqual(5);
          expect(state.femurWidthMm).toBeGreaterThanOrEqual(30);
          expect(state.flexionContactBehindMm).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 60, seed: 21 },
    );
  });
});

describe('FOR-4 loss at removal', () => {
  const loss = { leastMm: 1, likelyMm: 3, mostMm: 8, from: 'a test' };

  test('is triangular: mean and spread by the textbook, never beyond the corners', () => {
    const drawn = column({ ...CERTAIN_KNEE, removal: { ...CERTAIN_KNEE.removal, tibia: loss } }, 'tibiaMm.lateral').map(
      (t) => t - EXAMPLE_STATE.tibiaMm.lateral,
    );
    const textbook = { fixation: 'cemented', surface: 'tibia', ...loss } as const;
    const { mean, sd } = meanAndSd(drawn);
    expect(Math.abs(mean - expectedLossMm(textbook))).toBeLessThan((4 * lossSdMm(textbook)) / Math.sqrt(N));
    expect(Math.abs(sd / lossSdMm(textbook) - 1)).toBeLessThan(0.06);
    expect(Math.min(...drawn)).toBeGreaterThanOrEqual(1 - 1e-9);
    expect(Math.max(...drawn)).toBeLessThanOrEqual(8 + 1e-9);
  });

  test('the inverse of the distribution meets its corners and turns back into the share', () => {
    expect([0, 2 / 7, 1].map((u) => triangularMm(loss, u))).toEqual([1, 3, 8]);
    expect(triangularMm({ leastMm: 2, likelyMm: 2, mostMm: 2 }, 0.7)).toBe(2);
    const below = (x: number) => (x < 3 ? (x - 1) ** 2 / (7 * 2) : 1 - (8 - x) ** 2 / (7 * 5));
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (u) => {
        expect(below(triangularMm(loss, u))).toBeCloseTo(u, 9);
      }),
      { seed: 22 },
    );
  });

  test('both sides and all surfaces lose on their own', () => {
    const removal = { femurDistal: loss, femurPosterior: loss, tibia: loss };
    const knee = { ...CERTAIN_KNEE, removal };
    const pairs: readonly (readonly [SpreadField, SpreadField])[] = [
      ['tibiaMm.medial', 'tibiaMm.lateral'],
      ['femurDistalMm.medial', 'femurPosteriorMm.medial'],
    ];
    for (const [a, b] of pairs)
      expect(Math.abs(correlation(column(knee, a), column(knee, b)))).toBeLessThan(4 / Math.sqrt(N));
  });
});

const always = (name: keyof UncertainKnee['chances'], expected = EXAMPLE_STATE): UncertainKnee => ({
  ...CERTAIN_KNEE,
  expected,
  chances: { ...CERTAIN_KNEE.chances, [name]: { chance: 1, from: 'a test' } },
});

describe('FOR-5 one class worse', () => {
  test('happens as often as stated', () => {
    const knee = { ...CERTAIN_KNEE, chances: { ...CERTAIN_KNEE.chances, tibiaWorse: { chance: 0.3, from: '' } } };
    const share = drawKnees(knee, { draws: N, seed: 4 }).filter((k) => k.state.tibiaClass === '2B').length / N;
    expect(Math.abs(share - 0.3)).toBeLessThan(near(0.3, N));
  });

  test('from 1 to 2A the deeper side is lost, from 2A to 2B the other, from 2B on both; the posterior condyle by half', () => {
    const lostIn = (femurClass: '1' | '2A' | '2B' | '3') =>
      drawKnees(always('femurWorse', { ...EXAMPLE_STATE, femurClass }), { draws: 40, seed: 6 }).map(({ state }) => ({
        to: state.femurClass,
        medial: state.femurDistalMm.medial - EXAMPLE_STATE.femurDistalMm.medial,
        lateral: state.femurDistalMm.lateral - EXAMPLE_STATE.femurDistalMm.lateral,
        posterior: state.femurPosteriorMm.medial - EXAMPLE_STATE.femurPosteriorMm.medial,
      }));
    for (const k of lostIn('1')) {
      expect([k.to, k.lateral]).toEqual(['2A', 0]);
      expect(k.medial).toBeGreaterThanOrEqual(LOST_BESIDES['to-type-2'].leastMm);
      expect(k.posterior).toBeCloseTo(POSTERIOR_SHARE * k.medial, 9);
    }
    for (const k of lostIn('2A')) {
      expect([k.to, k.medial]).toEqual(['2B', 0]);
      expect(k.lateral).toBeGreaterThanOrEqual(LOST_BESIDES['to-type-2'].leastMm);
    }
    for (const from of ['2B', '3'] as const)
      for (const k of lostIn(from)) {
        expect(k.to).toBe('3');
        expect(Math.min(k.medial, k.lateral)).toBeGreaterThanOrEqual(LOST_BESIDES['to-type-3'].leastMm);
      }
  });
});

describe('FOR-6 attachments', () => {
  test('a femur that turns type 3 may lose either ligament, a tibia only the medial one; one that was type 3 keeps what was examined', () => {
    const gone = (name: 'femurWorse' | 'tibiaWorse', from: '2B' | '3') => {
      const expected = { ...EXAMPLE_STATE, femurClass: from, tibiaClass: from };
      const knees = drawKnees(always(name, expected), { draws: N, seed: 8 });
      const share = (ligament: 'mcl' | 'lcl') => knees.filter((k) => k.state[ligament] === 'absent').length / N;
      return { mcl: share('mcl'), lcl: share('lcl') };
    };
    const femur = gone('femurWorse', '2B');
    expect(Math.abs(femur.mcl - 0.25)).toBeLessThan(near(0.25, N));
    expect(Math.abs(femur.lcl - 0.25)).toBeLessThan(near(0.25, N));
    const tibia = gone('tibiaWorse', '2B');
    expect(Math.abs(tibia.mcl - 0.25)).toBeLessThan(near(0.25, N));
    expect(tibia.lcl).toBe(0);
    expect(gone('femurWorse', '3')).toEqual({ mcl: 0, lcl: 0 });
  });
});

describe('FOR-7 a weaker ligament', () => {
  test('is one grade worse, one that was not examined counts as gone, and its side opens', () => {
    const drawn = (mcl: 'intact' | 'attenuated' | 'absent' | 'unknown') =>
      drawKnees(always('mclWorse', { ...EXAMPLE_STATE, mcl }), { draws: 50, seed: 9 });
    expect(drawn('intact').every((k) => k.state.mcl === 'attenuated')).toBe(true);
    expect(drawn('attenuated').every((k) => k.state.mcl === 'absent')).toBe(true);
    expect(drawn('unknown').every((k) => k.state.mcl === 'absent')).toBe(true);
    for (const { state } of drawn('intact')) {
      const opens = state.extensionLaxityMm.medial - EXAMPLE_STATE.extensionLaxityMm.medial;
      expect(opens).toBeGreaterThanOrEqual(0);
      expect(state.flexionLaxityMm.medial - EXAMPLE_STATE.flexionLaxityMm.medial).toBeCloseTo(opens, 9);
      expect(state.extensionLaxityMm.lateral).toBe(EXAMPLE_STATE.extensionLaxityMm.lateral);
    }
    for (const { state } of drawn('absent')) expect(state).toEqual({ ...EXAMPLE_STATE, mcl: 'absent' });
  });
});

describe('FOR-8 what is not stated', () => {
  test('a knee with everything stated names nothing', () => expect(notStatedOf(CERTAIN_KNEE)).toEqual([]));

  test('a chance that is not stated does not happen and is named; so are spreads and losses', () => {
    const { femurWidthMm: _, ...spreads } = CERTAIN_KNEE.spreads;
    const knee: UncertainKnee = {
      ...CERTAIN_KNEE,
      spreads,
      removal: { ...CERTAIN_KNEE.removal, tibia: null },
      chances: { ...CERTAIN_KNEE.chances, infection: { chance: null, from: '' } },
    };
    expect(drawKnees(knee, { draws: 200, seed: 1 }).some((k) => k.infection)).toBe(false);
    expect(notStatedOf(knee).map((n) => n.field)).toEqual([
      'forecast.spreads.femurWidthMm',
      'bone.tibiaFixation',
      'forecast.infectionChance',
    ]);
    for (const n of notStatedOf(knee)) expect(n.wouldChange).not.toBe('');
  });
});
