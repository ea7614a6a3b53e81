import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meanAndSd, normalDraws } from '../measure/normal-draws.ts';
import { Z95 } from '../measure/quantity.ts';
import { cholesky, solveCholesky } from './cholesky.ts';
import { consensus } from './consensus.ts';
import { covariance } from './covariance.ts';
import type { JointLineCorrelations, JointLineEstimate, JointLineOpinion } from './estimate-types.ts';
import { DEFAULT_CORRELATIONS } from './landmark-distances.ts';

const NONE: JointLineCorrelations = { withinFemur: 0, withinTibia: 0, across: 0 };

const opinion = (heightMm: number, personSdMm: number, more: Partial<JointLineOpinion> = {}): JointLineOpinion => ({
  id: `landmark at ${heightMm}`,
  label: `Landmark at ${heightMm}`,
  group: 'femur',
  heightMm,
  personSdMm,
  markingSdMm: 0,
  distanceMm: 0,
  widthRatio: 0,
  film: 'f',
  scaleRelativeSd: 0,
  widthSdMm: 0,
  rule: 'JL-8',
  source: 'worked example',
  ...more,
});

const estimate = (opinions: readonly JointLineOpinion[], correlations = NONE): JointLineEstimate => {
  const out = consensus(opinions, correlations);
  if (!out.ok) throw new Error(out.reason.code);
  return out.value;
};
const rho = (withinFemur: number): JointLineCorrelations => ({ ...DEFAULT_CORRELATIONS, withinFemur });

describe('JL-8 checks by hand', () => {
  // Frames and gaps, section 2.
  test('10 and 14 mm, spreads 2 and 2, no correlation: 12.0 mm, spread 1.414, Q 2.0', () => {
    const e = estimate([opinion(10, 2), opinion(14, 2)]);
    expect(e.heightMm).toBeCloseTo(12, 12);
    expect(e.sdMm).toBeCloseTo(Math.SQRT2, 12);
    expect(e.agreement?.q).toBeCloseTo(2, 12);
    // One degree of freedom: two-sided normal tail beyond sqrt(2).
    expect(e.agreement?.p).toBeCloseTo(0.1573, 4);
  });

  // Geometry reference 10.2, fixture J1: width 82; ratios .540/.325/.290, spreads .032/.030/.026; measured 40.0, 24.0, 20.5.
  const J1 = [
    [0.54, 0.032, 40],
    [0.325, 0.03, 24],
    [0.29, 0.026, 20.5],
  ].map(([ratio = 0, sd = 0, measured = 0]) => opinion(measured - ratio * 82, sd * 82));
  test('fixture J1: shifts +4.28, +2.65, +3.28', () =>
    expect(J1.map((o) => Math.round(-o.heightMm * 100) / 100)).toEqual([4.28, 2.65, 3.28]));
  test('fixture J1, no correlation: 3.36 +/- 1.37, weights .274 .312 .415', () => {
    const e = estimate(J1);
    expect([e.shiftMm, e.sdMm]).toEqual([expect.closeTo(3.36, 2), expect.closeTo(1.37, 2)]);
    expect(e.opinions.map((o) => o.weight)).toEqual([
      expect.closeTo(0.274, 3),
      expect.closeTo(0.312, 3),
      expect.closeTo(0.415, 3),
    ]);
  });
  test('fixture J1, correlation .5: 3.29 +/- 1.92, weights .188 .277 .535', () => {
    const e = estimate(J1, rho(0.5));
    expect([e.shiftMm, e.sdMm]).toEqual([expect.closeTo(3.29, 2), expect.closeTo(1.92, 2)]);
    expect(e.opinions.map((o) => o.weight)).toEqual([
      expect.closeTo(0.188, 3),
      expect.closeTo(0.277, 3),
      expect.closeTo(0.535, 3),
    ]);
  });

  // Geometry reference, section 12: fused spread at a width of 80 mm.
  const FEMUR = [2.6, 2.4, 2.1].map((sd) => opinion(0, sd));
  const TIBIA = [4, 4.5].map((sd) => opinion(0, sd, { group: 'tibia', film: 't' }));
  test.each([
    [0, 1.34],
    [0.3, 1.69],
    [0.5, 1.87],
    [0.7, 2.02],
  ])('three femoral landmarks with correlation %s: %s mm', (r, sd) =>
    // The reference rounds the spreads from shares of the width.
    expect(Math.abs(estimate(FEMUR, rho(r)).sdMm - sd)).toBeLessThan(0.025),
  );
  test('the other knee brings the five landmarks to 1.41 mm', () => {
    const all = [...FEMUR, ...TIBIA, opinion(0, 2, { group: 'other-knee', film: 'o' })];
    expect(Math.abs(estimate(all, DEFAULT_CORRELATIONS).sdMm - 1.41)).toBeLessThan(0.03);
  });
});

describe('JL-8 covariance', () => {
  const shared = { film: 'f', scaleRelativeSd: 0.02, widthSdMm: 1.5 };
  const a = opinion(0, 2, { ...shared, distanceMm: 45, widthRatio: 0.54, markingSdMm: 0.5 });
  const b = opinion(0, 3, { ...shared, distanceMm: 25, widthRatio: 0.3 });
  test('term by term: people, marking, scale, width', () => {
    const v = covariance([a, b], rho(0.5));
    expect(v[0]?.[0]).toBeCloseTo(4 + 0.25 + 0.02 ** 2 * 45 ** 2 + 1.5 ** 2 * 0.54 ** 2, 12);
    expect(v[0]?.[1]).toBeCloseTo(0.5 * 6 + 0.02 ** 2 * 45 * 25 + 1.5 ** 2 * 0.54 * 0.3, 12);
    expect(v[1]?.[0]).toBe(v[0]?.[1]);
  });
  test('a landmark on another film has its own scale term', () => {
    const v = covariance([a, { ...b, film: 'g' }], rho(0.5));
    expect(v[0]?.[1]).toBeCloseTo(3, 12);
  });
  test('bones correlate within themselves, across only a little', () => {
    const t = (group: JointLineOpinion['group']) => opinion(0, 1, { group, film: group });
    const at = (x: JointLineOpinion['group'], y: JointLineOpinion['group']) =>
      covariance([t(x), { ...t(y), film: 'another' }], DEFAULT_CORRELATIONS)[0]?.[1];
    expect([
      at('femur', 'femur'),
      at('tibia', 'tibia'),
      at('femur', 'tibia'),
      at('femur', 'other-knee'),
      at('earlier-film', 'earlier-film'),
    ]).toEqual([0.5, 0.4, 0.1, 0.1, 0.1]);
  });
  test('the difference of two distances on one film carries the scale of the difference alone', () => {
    const o = opinion(0, 2, { scaleRelativeSd: 0.02, distanceMm: 45, scaledLengthMm: 3 });
    expect(covariance([o], NONE)[0]?.[0]).toBeCloseTo(4 + 0.06 ** 2, 12);
  });
});

describe('JL-9 agreement', () => {
  test('landmarks that agree raise no warning', () =>
    expect(estimate([opinion(-3, 2), opinion(-2, 2), opinion(-2.5, 2)]).warnings).toEqual([]));
  test('landmarks that lie too far apart are said to disagree, each with what leaving it out would do', () => {
    const e = estimate([opinion(0, 2), opinion(0.5, 2), opinion(9, 2)]);
    expect(e.agreement?.disagree).toBe(true);
    expect(e.warnings.map((w) => w.code)).toContain('landmarks-disagree');
    expect(e.warnings.map((w) => w.code)).toContain('landmark-far-off');
    expect(e.opinions.map((o) => o.leaveOneOutMm)).toEqual([
      expect.closeTo(4.75, 9),
      expect.closeTo(4.5, 9),
      expect.closeTo(0.25, 9),
    ]);
  });
  test('the limit is p = 0.05: two landmarks of spread 1 disagree from 1.96 sqrt 2 mm', () => {
    const apart = (d: number) => estimate([opinion(0, 1), opinion(d, 1)]).agreement?.disagree;
    expect([apart(1.95 * Math.SQRT2), apart(1.97 * Math.SQRT2)]).toEqual([false, true]);
  });
  test('one landmark: its own value and spread, and no test', () => {
    const e = estimate([opinion(-4.2, 2.6)]);
    expect([e.heightMm, e.sdMm, e.agreement]).toEqual([-4.2, expect.closeTo(2.6, 12), null]);
    expect(e.opinions[0]).toMatchObject({ weight: 1, leaveOneOutMm: null, residualMm: 0 });
  });
  test('truly correlated landmarks are wrongly said to disagree in 5 % of knees, and covered in 95 %', () => {
    const people = [2.6, 2.4, 2.1];
    const factor =
      cholesky(
        covariance(
          people.map((sd) => opinion(0, sd)),
          rho(0.5),
        ),
      ) ?? [];
    const next = normalDraws(5);
    const drawn = Array.from({ length: 4000 }, () => {
      const z = people.map(next);
      return estimate(
        people.map((sd, i) =>
          opinion(
            (factor[i] ?? []).reduce((s, l, k) => s + l * (z[k] ?? 0), 0),
            sd,
          ),
        ),
        rho(0.5),
      );
    });
    const share = (is: (e: JointLineEstimate) => boolean) => drawn.filter(is).length / drawn.length;
    expect(Math.abs(share((e) => e.agreement?.disagree === true) - 0.05)).toBeLessThan(0.012);
    expect(Math.abs(share((e) => Math.abs(e.heightMm) <= Z95 * e.sdMm) - 0.95)).toBeLessThan(0.012);
    expect(meanAndSd(drawn.map((e) => e.heightMm)).sd / (drawn[0]?.sdMm ?? 0)).toBeCloseTo(1, 1);
    // Taken as independent the same landmarks would be covered far too rarely.
    expect(estimate(people.map((sd) => opinion(0, sd))).sdMm).toBeLessThan(1.36);
  });
});

describe('JL-15 how far off', () => {
  const codes = (h: number) => estimate([opinion(h, 2)]).warnings.map((w) => w.code);
  test('beyond 4 mm it is said, beyond 8 mm severely', () => {
    expect(codes(-4)).toEqual([]);
    expect(codes(-4.1)).toEqual(['joint-line-off']);
    expect(codes(8.1)).toEqual(['joint-line-far-off']);
  });
  test('words: a target below the present line means that it stands raised', () => {
    const at = (h: number) => estimate([opinion(h, 2)]).warnings[0]?.message;
    expect(at(-5)).toContain('raised');
    expect(at(5)).toContain('lowered');
    expect(estimate([opinion(-5, 2)]).shiftMm).toBe(5);
  });
});

describe('properties', () => {
  const number = fc.double({ min: -20, max: 20, noNaN: true });
  const spread = fc.double({ min: 0.5, max: 6, noNaN: true });
  const some = fc.array(fc.tuple(number, spread), { minLength: 1, maxLength: 6 });
  const made = (xs: readonly (readonly [number, number])[]) => xs.map(([h, sd], i) => opinion(h, sd, { id: `l${i}` }));
  test('weights sum to 1, and a shift of all shifts the estimate alone', () => {
    fc.assert(
      fc.property(some, number, (xs, by) => {
        const [e, moved] = [estimate(made(xs), rho(0.3)), estimate(made(xs.map(([h, sd]) => [h + by, sd])), rho(0.3))];
        expect(e.opinions.reduce((s, o) => s + o.weight, 0)).toBeCloseTo(1, 9);
        expect(moved.heightMm - e.heightMm).toBeCloseTo(by, 6);
        expect(moved.sdMm).toBeCloseTo(e.sdMm, 9);
        expect(moved.agreement?.q ?? 0).toBeCloseTo(e.agreement?.q ?? 0, 4);
      }),
    );
  });
  test('one more landmark never widens the spread, and no other weights give a smaller one', () => {
    fc.assert(
      fc.property(some, number, spread, (xs, h, sd) => {
        const before = estimate(made(xs), rho(0.5));
        const after = estimate(made([...xs, [h, sd]]), rho(0.5));
        expect(after.sdMm).toBeLessThanOrEqual(before.sdMm + 1e-9);
        const v = covariance(made(xs), rho(0.5));
        const even = v.reduce((s, row) => s + row.reduce((t, c) => t + c, 0), 0) / xs.length ** 2;
        expect(before.sdMm ** 2).toBeLessThanOrEqual(even + 1e-9);
      }),
    );
  });
  test('the order of landmarks does not matter', () => {
    fc.assert(
      fc.property(some, (xs) => {
        const [a, b] = [estimate(made(xs), rho(0.5)), estimate(made(xs.toReversed()), rho(0.5))];
        expect(a.heightMm).toBeCloseTo(b.heightMm, 7);
        expect(a.sdMm).toBeCloseTo(b.sdMm, 7);
      }),
    );
  });
});

describe('refusals', () => {
  const code = (o: ReturnType<typeof consensus>) => (o.ok ? 'ok' : o.reason.code);
  test('no opinion', () => expect(code(consensus([], NONE))).toBe('no-landmark'));
  test('correlations that no errors can have, naming the setting', () => {
    const out = consensus([opinion(0, 2), opinion(1, 2), opinion(2, 2)], rho(-0.9));
    expect(code(out)).toBe('correlations-impossible');
    expect(out.ok ? '' : out.reason.field).toBe('settings.correlations');
    expect(code(consensus([opinion(0, 2), opinion(1, 2)], rho(1)))).toBe('correlations-impossible');
  });
  test('an opinion without any spread', () =>
    expect(code(consensus([opinion(0, 0)], NONE))).toBe('correlations-impossible'));
});

test('Cholesky solves what it factorises', () => {
  const matrix = [
    [4, 2, 0.6],
    [2, 5, 1],
    [0.6, 1, 3],
  ];
  const lower = cholesky(matrix);
  if (!lower) throw new Error('positive definite');
  const x = solveCholesky(lower, [1, 2, 3]);
  const back = matrix.map((row) => row.reduce((s, v, i) => s + v * (x[i] ?? 0), 0));
  expect(back).toEqual([expect.closeTo(1, 12), expect.closeTo(2, 12), expect.closeTo(3, 12)]);
  expect(
    cholesky([
      [1, 2],
      [2, 1],
    ]),
  ).toBeNull();
});
