import { describe, expect, test } from 'vitest';
import { knownCase, REPLACED_AP } from '../landmarks/known-knee.ts';
import { type KnownPoints, knownMarks, knownScale } from '../landmarks/known-marks.ts';
import { landmark } from '../landmarks/landmark-table.ts';
import { normalDraws } from '../measure/normal-draws.ts';
import { Z95 } from '../measure/quantity.ts';
import { femoralJointLine } from './femoral-joint-line.ts';
import { FEMORAL_DISTANCES } from './landmark-distances.ts';

const base = knownCase();
const NAMES = ['adductor-tubercle', 'medial-epicondyle', 'lateral-epicondyle'] as const;
const PLACES = { 'adductor-tubercle': -33, 'medial-epicondyle': -41, 'lateral-epicondyle': 41 } as const;

/** A person whose landmarks depart from the table as people do, with half of it in common, and who is marked and scaled with error. */
function drawn(next: () => number, raisedMm: number, scaleSd: number) {
  const shared = next();
  const points: Partial<Record<keyof KnownPoints, readonly [number, number]>> = {};
  for (const name of NAMES) {
    const d = FEMORAL_DISTANCES.find((x) => x.landmark === name);
    const ratio = d?.ratio.pooled ?? 0;
    // The published spread holds 1 mm of picking; what is left lies between people.
    const between = Math.sqrt(((d?.ratioSd ?? 0) * 82) ** 2 - 1);
    points[name] = [PLACES[name], ratio * 82 - raisedMm + between * (Math.SQRT1_2 * shared + Math.SQRT1_2 * next())];
  }
  const mm = 0.14 * (1 + scaleSd * next());
  const marks = knownMarks(
    { ...REPLACED_AP, ...points },
    {
      film: 'long',
      side: 'right',
      columnsTowards: 'patient-left',
      mmPerPx: { x: 0.14, y: 0.14 },
      originPx: [900, 3500],
    },
  ).map((m) => {
    const sd = landmark(m.landmark).markingSdMm / 0.14;
    return { ...m, points: m.points.map((p) => ({ x: p.x + sd * next(), y: p.y + sd * next() })) };
  });
  return {
    ...base,
    films: base.films.filter((f) => f.id === 'long'),
    marks,
    calibrations: new Map([['long', knownScale({ x: mm, y: mm }, scaleSd)]]),
  };
}

describe('JL-8 the true joint line lies in the 95 % interval', () => {
  test.each([
    [0, 0.01],
    [5, 0.01],
    [10, 0.02],
  ])('raised by %s mm, scale known to %s: in 92 to 98 % of 1500 knees', (raised, scaleSd) => {
    const next = normalDraws(77 + raised);
    const estimates = Array.from({ length: 1500 }, () => femoralJointLine(drawn(next, raised, scaleSd)));
    const inside = estimates.filter((e) => e.ok && Math.abs(e.value.shiftMm - raised) <= Z95 * e.value.sdMm);
    expect(inside.length / estimates.length).toBeGreaterThan(0.92);
    expect(inside.length / estimates.length).toBeLessThan(0.98);
    const disagree = estimates.filter((e) => e.ok && e.value.agreement?.disagree);
    expect(disagree.length / estimates.length).toBeLessThan(0.08);
  });
});
