import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FIXATIONS_IN_PLACE, type RemovalEstimate } from './bone-map.ts';
import {
  checkRemovalEstimates,
  expectedLossMm,
  lossSdMm,
  REMOVAL_DEFAULT_SOURCE,
  removalEstimate,
} from './removal-loss.ts';

const SURFACES = ['femur-distal', 'femur-posterior', 'tibia'] as const;
const own = (rest: Partial<RemovalEstimate> = {}): RemovalEstimate => ({
  fixation: 'cemented',
  surface: 'tibia',
  leastMm: 1,
  likelyMm: 2,
  mostMm: 6,
  ...rest,
});

describe('loss expected at removal', () => {
  test('BONE-9 every default is in order, says that nothing is published, and is not confirmed', () => {
    for (const fixation of FIXATIONS_IN_PLACE)
      for (const surface of SURFACES) {
        const e = removalEstimate(fixation, surface);
        expect(0 <= e.leastMm && e.leastMm <= e.likelyMm && e.likelyMm <= e.mostMm).toBe(true);
        expect([e.from, e.confirmed]).toEqual([REMOVAL_DEFAULT_SOURCE, false]);
      }
    expect(REMOVAL_DEFAULT_SOURCE).toMatch(/grade D, no published source/);
  });

  test('BONE-9 the better a component is held, the more its removal takes (order of the removal chapters)', () => {
    for (const surface of SURFACES) {
      const mean = FIXATIONS_IN_PLACE.map((f) => expectedLossMm(removalEstimate(f, surface)));
      expect(mean).toEqual([...mean].sort((a, b) => a - b));
    }
  });

  test("BONE-9 the practice's own estimate stands in for the default of just its fixation and surface, the last one first", () => {
    const entered = [own({ mostMm: 5 }), own(), own({ fixation: 'loose', mostMm: 9 })];
    expect(removalEstimate('cemented', 'tibia', entered)).toMatchObject({ mostMm: 6, confirmed: true });
    expect(removalEstimate('cemented', 'femur-distal', entered)).toMatchObject({ confirmed: false });
    expect(removalEstimate('ingrown', 'tibia', entered)).toMatchObject({ confirmed: false });
  });

  test('BONE-9 an estimate out of order is passed over and named with its place', () => {
    const bad = own({ leastMm: 4, likelyMm: 3 });
    expect(removalEstimate('cemented', 'tibia', [own(), bad])).toMatchObject({ leastMm: 1, confirmed: true });
    expect(removalEstimate('cemented', 'tibia', [bad])).toMatchObject({ confirmed: false });
    expect(checkRemovalEstimates([own(), bad], ['tibia']).map((r) => r.field)).toEqual(['bone.removalEstimates[1]']);
    expect(checkRemovalEstimates([bad], ['femur-distal'])).toEqual([]);
    expect(checkRemovalEstimates([own({ leastMm: Number.NaN })], ['tibia'])).toHaveLength(1);
  });

  test('BONE-9 mean and spread are those of the triangular distribution, by summing its density', () => {
    const mm = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(mm, mm, mm, (x, y, z) => {
        const [a, c, b] = [x, y, z].sort((p, q) => p - q) as [number, number, number];
        fc.pre(b - a > 0.5);
        const e = own({ leastMm: a, likelyMm: c, mostMm: b });
        const steps = 4000;
        const at = Array.from({ length: steps }, (_, i) => a + ((b - a) * (i + 0.5)) / steps);
        const density = (v: number) =>
          v < c ? (v - a) / ((b - a) * (c - a)) : b === c ? 0 : (b - v) / ((b - a) * (b - c));
        const width = (b - a) / steps;
        const mean = at.reduce((s, v) => s + 2 * v * density(v) * width, 0);
        const variance = at.reduce((s, v) => s + 2 * (v - mean) ** 2 * density(v) * width, 0);
        expect(expectedLossMm(e)).toBeCloseTo(mean, 2);
        expect(lossSdMm(e)).toBeCloseTo(Math.sqrt(variance), 2);
      }),
      { numRuns: 30, seed: 3 },
    );
  });
});
