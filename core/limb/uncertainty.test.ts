import { describe, expect, test } from 'vitest';
import type { Calibration } from '../calibration/calibration.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { knownCase } from '../landmarks/known-knee.ts';
import { landmark } from '../landmarks/landmark-table.ts';
import { meanAndSd, normalDraws } from '../measure/normal-draws.ts';
import { ok } from '../measure/outcome.ts';
import { propagatedSd } from '../measure/propagate.ts';
import { Z95 } from '../measure/quantity.ts';
import { type Point, point } from '../plane/point.ts';
import { hka } from './hka.ts';
import { lineOf } from './lines-of-a-knee.ts';
import { measureCase } from './measure-knee.ts';

const truth = knownCase();
const exact = measureCase(truth);

/** The same case, marked anew by somebody whose hand, scale and label err by the stated spreads. */
function drawn(next: () => number): KneeEvidence {
  const scaleError = new Map<string, number>();
  const calibrations = new Map<string, Calibration>();
  for (const [film, c] of truth.calibrations) {
    if (c.source === 'none') throw new Error('scaled');
    const factor = 1 + c.relativeSd * next();
    scaleError.set(film, factor);
    calibrations.set(film, { ...c, mmPerPx: { x: c.mmPerPx.x * factor, y: c.mmPerPx.y * factor } });
  }
  const marks = truth.marks.map((m) => {
    const sd = landmark(m.landmark).markingSdMm / 0.14;
    return { ...m, points: m.points.map((p) => ({ x: p.x + sd * next(), y: p.y + sd * next() })) };
  });
  return { ...truth, marks, calibrations, implants: { insertMm: 10 + 0.5 * next() } };
}

const DRAWS = 2500;
const next = normalDraws(20261);
const samples = Array.from({ length: DRAWS }, () => measureCase(drawn(next)));

const spread = exact.filter((m) => m.value !== null && m.sd !== null).map((m) => [m.side, m.id] as const);

describe('LIMB-21 propagated spread against 2500 draws', () => {
  test('every measurement of the case is being judged', () => expect(spread.length).toBeGreaterThan(38));

  test.each(spread)('%s %s: stated spread within 7 % of the drawn one', (side, id) => {
    const values = samples.map((s) => lineOf(s, id, side).value ?? Number.NaN);
    const stated = lineOf(exact, id, side).sd ?? Number.NaN;
    expect(stated / meanAndSd(values).sd).toBeGreaterThan(0.93);
    expect(stated / meanAndSd(values).sd).toBeLessThan(1.07);
  });

  test.each(spread)('%s %s: the truth lies in the 95 %% interval in 92 to 98 %% of draws', (side, id) => {
    const right = lineOf(exact, id, side).value ?? Number.NaN;
    const inside = samples.filter((s) => {
      const m = lineOf(s, id, side);
      return Math.abs((m.value ?? Number.NaN) - right) <= Z95 * (m.sd ?? 0);
    });
    expect(inside.length / DRAWS).toBeGreaterThan(0.92);
    expect(inside.length / DRAWS).toBeLessThan(0.98);
  });
});

// Geometry reference 1.5 and 5.1: sensitivities derived there for limbs of 440 and 370 mm.
describe('LIMB-21 published sensitivities', () => {
  const P = (x: number, y: number) => point('coronal', x, y);
  const limb = (hip: Point<'coronal'>, knee: Point<'coronal'>, ankle: Point<'coronal'>) => {
    const d = hka({ hip, femoralKnee: knee, tibialKnee: knee, ankle });
    if (!d.ok) throw new Error(d.reason.code);
    return d.value;
  };
  const straight = limb(P(0, 440), P(0, 0), P(0, -370));
  test('1 mm at the knee turns HKA by 0.285 degrees, at the hip by 0.13, at the ankle by 0.155', () => {
    expect(straight).toBeCloseTo(0, 12);
    expect(Math.abs(limb(P(0, 440), P(1, 0), P(0, -370)))).toBeCloseTo(0.285, 3);
    expect(Math.abs(limb(P(1, 440), P(0, 0), P(0, -370)))).toBeCloseTo(0.13, 3);
    expect(Math.abs(limb(P(0, 440), P(0, 0), P(1, -370)))).toBeCloseTo(0.155, 3);
  });
  test('1 mm of marking on hip, knee and ankle gives HKA a spread of 0.35 degrees, 1.5 mm 0.52', () => {
    const at = { h: 0, k: 0, a: 0 };
    const moves = (sd: number) =>
      (['h', 'k', 'a'] as const).map((id) => ({
        move: (times: number) => {
          at[id] = sd * times;
        },
      }));
    const angle = () => ok(limb(P(at.h, 440), P(at.k, 0), P(at.a, -370)));
    expect(propagatedSd(angle, moves(1))).toBeCloseTo(0.35, 2);
    expect(propagatedSd(angle, moves(1.5))).toBeCloseTo(0.52, 2);
  });
});
