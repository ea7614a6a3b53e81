import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { knownCase } from '../landmarks/known-knee.ts';
import { knownScale } from '../landmarks/known-marks.ts';
import { measureCase } from './measure-knee.ts';

const before = measureCase(knownCase());

/**
 * Every film turned, moved and enlarged as a picture; the scale goes with it. A skyline may be turned by less than a quarter only: beyond that
 * its columns, which alone tell lateral from medial there (LM-8), would be stated wrongly.
 */
function transformed(evidence: KneeEvidence, t: { deg: number; dx: number; dy: number; times: number }): KneeEvidence {
  const turned = (film: string) => {
    const rad = ((film === 'sky' ? t.deg / 2.2 : t.deg) * Math.PI) / 180;
    return [Math.cos(rad) * t.times, Math.sin(rad) * t.times] as const;
  };
  const mm = 0.14 / t.times;
  return {
    ...evidence,
    marks: evidence.marks.map((m) => {
      const [c, s] = turned(m.film);
      return { ...m, points: m.points.map(({ x, y }) => ({ x: x * c - y * s + t.dx, y: x * s + y * c + t.dy })) };
    }),
    calibrations: new Map([...evidence.calibrations.keys()].map((id) => [id, knownScale({ x: mm, y: mm })])),
  };
}

function expectSame(evidence: KneeEvidence, mirrored = false): void {
  const after = measureCase(evidence);
  expect(after.map((m) => m.id)).toEqual(before.map((m) => m.id));
  for (const [i, m] of after.entries()) {
    const b = before[i];
    expect(m.side === b?.side).toBe(!mirrored);
    expect(m.value === null).toBe(b?.value === null);
    if (m.value !== null && b?.value != null) {
      expect(Math.abs(m.value - b.value)).toBeLessThan(1e-7);
      // A step of one spread is not infinitesimal: along turned axes it sees a little more or less of the curvature.
      if (m.sd !== null) expect(Math.abs(m.sd / (b.sd ?? Number.NaN) - 1)).toBeLessThan(2e-3);
    }
    expect(m.flags.map((f) => f.code)).toEqual(b?.flags.map((f) => f.code));
  }
}

describe('measurements do not hang on how the picture lies', () => {
  const offset = fc.double({ min: -3000, max: 3000, noNaN: true });
  test('turned, moved and enlarged films give the same values and spreads', () => {
    fc.assert(
      fc.property(
        fc.record({
          deg: fc.double({ min: -180, max: 180, noNaN: true }),
          dx: offset,
          dy: offset,
          times: fc.double({ min: 0.3, max: 3, noNaN: true }),
        }),
        (t) => expectSame(transformed(knownCase(), t)),
      ),
      { numRuns: 60 },
    );
  });
  test('LM-1 the mirrored person, other side operated, gives the same values', () =>
    expectSame(knownCase('left'), true));
  test('frozen input: nothing is changed', () => {
    const freeze = <T>(v: T): T => {
      if (v && typeof v === 'object' && !(v instanceof Map)) for (const x of Object.values(v)) freeze(x);
      return Object.freeze(v);
    };
    expectSame(freeze(knownCase()));
  });
});
