import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { knownCase } from '../landmarks/known-knee.ts';
import { meanAndSd, normalDraws } from '../measure/normal-draws.ts';
import type { TracedBone } from './canal-along-itself.ts';
import { lineOf, measuredValue } from './lines-of-a-knee.ts';
import { measureCanals } from './measure-canals.ts';

const MM = 0.14;
const evidence = knownCase();

interface Canal {
  readonly bone?: TracedBone['bone'];
  readonly film?: string;
  /** Middle of the canal and half its inner and outer width at a height, mm of the limb's frame. */
  readonly at: (up: number) => {
    readonly middle: number;
    readonly inner: number;
    readonly cortex?: readonly [number, number];
  };
  readonly from?: number;
  readonly to?: number;
  readonly step?: number;
}

/** A canal as it would be traced on a film of the known right knee. */
function traced(c: Canal, draw: () => number = () => 0): TracedBone {
  const { bone = 'femur', film = 'ap', from = 60, to = 240, step = 12 } = c;
  const sign = bone === 'femur' ? 1 : -1;
  const rightwards = film === 'lat' ? 1 : -1;
  const px = (across: number, up: number) => ({
    x: 900 + (rightwards * (across + draw())) / MM,
    y: 1400 - up / MM,
  });
  const levels = [];
  for (let h = from; h <= to; h += step) {
    const up = sign * h;
    const { middle, inner, cortex } = c.at(up);
    levels.push({
      innerA: px(middle - inner, up),
      innerB: px(middle + inner, up),
      ...(cortex ? { outerA: px(middle - inner - cortex[0], up), outerB: px(middle + inner + cortex[1], up) } : {}),
    });
  }
  return { bone, film, levels, sdMm: 0.7 };
}

const measure = (...traces: readonly TracedBone[]) => measureCanals(evidence, traces);
const value = (id: string, ...traces: readonly TracedBone[]) => measuredValue(measure(...traces), id);

const straight = { at: () => ({ middle: 3, inner: 7, cortex: [5, 6] as const }) };
/** Middle of a canal that is an arc of that radius, convex to + where it is above zero. */
const arc = (radius: number) => ({
  at: (up: number) => ({ middle: -((up - 150) ** 2) / (2 * radius), inner: 7 }),
});

describe('a canal of known walls', () => {
  test('LIMB-33 14 mm wide', () => expect(value('femoral-canal-ap', traced(straight))).toBeCloseTo(14, 6));
  test('LIMB-35 5 mm of medial and 6 mm of lateral cortex', () => {
    expect(value('femoral-cortex-medial', traced(straight))).toBeCloseTo(5, 6);
    expect(value('femoral-cortex-lateral', traced(straight))).toBeCloseTo(6, 6);
  });
  test('LIMB-35 front and back on the lateral film, where forward lies to the right', () => {
    const side = traced({ ...straight, film: 'lat' });
    expect(value('femoral-cortex-posterior', side)).toBeCloseTo(5, 6);
    expect(value('femoral-cortex-anterior', side)).toBeCloseTo(6, 6);
  });
  test('LIMB-35 a tibia, traced downwards, keeps medial and lateral apart', () => {
    const tibia = traced({ ...straight, bone: 'tibia', from: 50 });
    expect(value('tibial-cortex-medial', tibia)).toBeCloseTo(5, 6);
    expect(value('tibial-cortex-lateral', tibia)).toBeCloseTo(6, 6);
  });
  test('LIMB-34 a funnel: 24 mm at 60, 14 at 200 mm above the joint line; the tubercle stands at 40', () => {
    const funnel = traced({ at: (up) => ({ middle: 0, inner: 12 - (5 * (up - 60)) / 140 }), from: 52, step: 8 });
    expect(value('femoral-canal-shaft', funnel)).toBeCloseTo(14, 2);
    expect(value('femoral-canal-near', funnel)).toBeCloseTo(24, 2);
    expect(value('femoral-canal-flare', funnel)).toBeCloseTo(14 / 24, 3);
  });
  test.each([950, -1400])('LIMB-36 a bow of radius %s mm from the side', (radius) =>
    expect(value('femoral-bow-sagittal', traced({ ...arc(radius), film: 'lat' })) / radius).toBeCloseTo(1, 2),
  );
  test('LIMB-36 the same in front: + is convex lateral', () =>
    expect(value('femoral-bow-coronal', traced(arc(1100))) / 1100).toBeCloseTo(1, 2));
});

describe('what the traces do not give', () => {
  test('LIMB-22 LIMB-33 nothing traced: each line says so', () => {
    for (const m of measure()) expect(m.refused?.code).toBe('canal-not-traced');
  });
  test('LIMB-35 no outer walls, no cortex; the width stays', () => {
    const inner = traced({ at: () => ({ middle: 0, inner: 7 }) });
    expect(lineOf(measure(inner), 'femoral-cortex-medial').refused?.code).toBe('outer-walls-not-traced');
    expect(value('femoral-canal-ap', inner)).toBeCloseTo(14, 6);
  });
  test('LIMB-34 a trace that starts too far from the joint says by how much', () => {
    const { refused } = lineOf(measure(traced({ ...straight, from: 90 })), 'femoral-canal-near');
    expect(refused?.code).toBe('trace-does-not-reach');
    expect(refused?.message).toContain('30 mm nearer the joint');
  });
  test('LIMB-36 a straight canal has no radius, but a least one', () => {
    const { refused } = lineOf(measure(traced(straight)), 'femoral-bow-coronal');
    expect(refused?.code).toBe('bow-not-told');
    expect(refused?.message).toMatch(/at least \d{4} mm/);
  });
  test('LIMB-33 a film without scale, two levels, levels in disorder, a coordinate that is no number', () => {
    const code = (trace: TracedBone, e: KneeEvidence = evidence) =>
      lineOf(measureCanals(e, [trace]), 'femoral-canal-ap').refused?.code;
    const good = traced(straight);
    const none = { source: 'none', pixelAspect: 1, rule: 'SCALE-10', because: 'nothing stated' } as const;
    expect(code(good, { ...evidence, calibrations: new Map([['ap', none]]) })).toBe('no-scale');
    expect(code({ ...good, levels: good.levels.slice(0, 2) })).toBe('canal-levels');
    expect(code({ ...good, levels: good.levels.with(3, good.levels[1] ?? good.levels[0]!) })).toBe('canal-order');
    expect(
      code({ ...good, levels: good.levels.with(3, { innerA: { x: Number.NaN, y: 0 }, innerB: { x: 0, y: 0 } }) }),
    ).toBe('not-a-finite-number');
  });
  test('LIMB-33 where the trace ends in its narrowest place, the isthmus lies beyond, and that is said', () => {
    const narrowing = traced({ at: (up) => ({ middle: 0, inner: 12 - up / 40 }) });
    expect(lineOf(measure(narrowing), 'femoral-canal-ap').flags.map((f) => f.code)).toContain('canal-narrows-on');
  });
});

describe('LIMB-33 to LIMB-36 spread and picture', () => {
  test('the stated spread agrees with 900 draws of every wall', () => {
    const next = normalDraws(44);
    const make = (draw: () => number) => [
      traced(
        {
          at: (up) => ({ middle: -((up - 150) ** 2) / 1800, inner: 7 + Math.abs(up - 190) / 30, cortex: [5, 6] }),
          from: 56,
        },
        draw,
      ),
    ];
    const exact = measure(...make(() => 0));
    const drawn = Array.from({ length: 900 }, () => measure(...make(() => 0.7 * next())));
    for (const id of [
      'femoral-cortex-medial',
      'femoral-canal-shaft',
      'femoral-canal-near',
      'femoral-canal-flare',
      'femoral-bow-coronal',
    ]) {
      const stated = lineOf(exact, id).sd ?? Number.NaN;
      const { sd } = meanAndSd(drawn.map((d) => measuredValue(d, id)));
      // The scale and the height are not drawn here; they widen what is stated.
      expect(stated / sd).toBeGreaterThan(0.9);
      expect(stated / sd).toBeLessThan(1.35);
    }
  });
  test('a film that lies turned gives the same', () => {
    const trace = traced({ at: (up) => ({ middle: -((up - 150) ** 2) / 1800, inner: 8, cortex: [5, 6] }), from: 52 });
    const before = measure(trace);
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (deg) => {
        const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
        const turn = ({ x, y }: { x: number; y: number }) => ({ x: x * c - y * s, y: x * s + y * c });
        const after = measureCanals(
          { ...evidence, marks: evidence.marks.map((m) => ({ ...m, points: m.points.map(turn) })) },
          [
            {
              ...trace,
              levels: trace.levels.map((l) => ({
                innerA: turn(l.innerA),
                innerB: turn(l.innerB),
                ...(l.outerA && l.outerB ? { outerA: turn(l.outerA), outerB: turn(l.outerB) } : {}),
              })),
            },
          ],
        );
        for (const [i, m] of after.entries()) expect(m.value ?? 0).toBeCloseTo(before[i]?.value ?? 0, 5);
      }),
      { numRuns: 40 },
    );
  });
});
