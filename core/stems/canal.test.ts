import fc from 'fast-check';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, test } from 'vitest';
import { canalAxisAt } from './canal-axis.ts';
import { canalBow, longestByBowMm } from './canal-bow.ts';
import { canalFill, fillMeets } from './canal-fill.ts';
import { canalAt, canalFiner, canalSpan } from './canal-span.ts';
import type { CanalInView } from './canal-view.ts';
import { canalWidths, isthmusOf, narrowestIsthmus } from './canal-width.ts';
import { firstContact } from './first-contact.ts';
import { type CanalSection, longestStraightStemMm, straightStem } from './straight-stem.ts';
import { bowDropMm, straightenedFor } from './straighten-canal.ts';

/** A canal of one width on a circle of a radius, apex at `apexMm`, exactly. */
function onCircle(
  radiusMm: number,
  widthMm: number,
  { apexMm, fromMm, toMm, stepMm }: Record<'apexMm' | 'fromMm' | 'toMm' | 'stepMm', number>,
): CanalSection[] {
  const n = Math.round((toMm - fromMm) / stepMm);
  return Array.from({ length: n + 1 }, (_, i) => {
    const zMm = fromMm + i * stepMm;
    const y = (r: number) => Math.sqrt(r ** 2 - (zMm - apexMm) ** 2) - radiusMm;
    return { zMm, lowMm: y(radiusMm - widthMm / 2), highMm: y(radiusMm + widthMm / 2) };
  });
}

const view = (sections: readonly CanalSection[], more: Partial<CanalInView> = {}): CanalInView => ({
  view: 'lateral',
  film: 'lateral',
  sections,
  outer: null,
  wallSdMm: 0.7,
  scaleRelativeSd: 0,
  ...more,
});

const shifted = (sections: readonly CanalSection[], by: number) =>
  sections.map((s) => ({ ...s, lowMm: s.lowMm + by, highMm: s.highMm + by }));
const mirrored = (sections: readonly CanalSection[]) =>
  sections.map((s) => ({ zMm: s.zMm, lowMm: -s.highMm, highMm: -s.lowMm }));
const scaled = (sections: readonly CanalSection[], k: number) =>
  sections.map((s) => ({ zMm: k * s.zMm, lowMm: k * s.lowMm, highMm: k * s.highMm }));

/** Any canal, not too narrow, with walls that wander. */
const anyCanal = fc
  .array(fc.tuple(fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: 11, max: 18, noNaN: true })), {
    minLength: 3,
    maxLength: 9,
  })
  .map((levels) =>
    levels.map(([middle, width], i) => ({ zMm: 12 * i, lowMm: middle - width / 2, highMm: middle + width / 2 })),
  );

describe('a canal between and beyond its sections', () => {
  const canal = [
    { zMm: 0, lowMm: -10, highMm: 10 },
    { zMm: 20, lowMm: -6, highMm: 8 },
    { zMm: 30, lowMm: -5, highMm: 5 },
  ];

  test('STM-6 walls run straight between levels, and nothing is known beyond them', () => {
    expect(canalAt(canal, 10)).toEqual({ zMm: 10, lowMm: -8, highMm: 9 });
    expect(canalAt(canal, 20)).toEqual({ zMm: 20, lowMm: -6, highMm: 8 });
    expect(canalAt(canal, -1)).toBeNull();
    expect(canalAt(canal, 31)).toBeNull();
    expect(canalSpan(canal, 5, 25).map((s) => s.zMm)).toEqual([5, 20, 25]);
    expect(canalSpan(canal, 40, 50)).toEqual([]);
  });

  test('STM-6 cut finer, the walls stay where they were', () => {
    const fine = canalFiner(canal, 3);
    expect(fine.filter((s) => canal.some((c) => c.zMm === s.zMm))).toEqual(canal);
    for (const s of fine) expect(canalAt(canal, s.zMm)?.lowMm).toBeCloseTo(s.lowMm, 12);
    expect(Math.max(...fine.slice(1).map((s, i) => s.zMm - (fine[i]?.zMm ?? 0)))).toBeLessThanOrEqual(3);
  });
});

describe('width and bow of a canal', () => {
  test('STM-6 width at a level with both walls and the scale in its spread', () => {
    const [at] = canalWidths(view([{ zMm: 80, lowMm: -6, highMm: 8 }], { wallSdMm: 0.5, scaleRelativeSd: 0.02 }));
    expect(at).toMatchObject({ zMm: 80, widthMm: 14, outerMm: null });
    expect(at?.sdMm).toBeCloseTo(Math.hypot(0.5 * Math.SQRT2, 0.28), 12);
  });

  test('STM-6 the isthmus is the least mean of three levels; at the end of a trace it says so', () => {
    const widths = [20, 16, 13, 12, 12.5, 14, 17];
    const canal = view(widths.map((w, i) => ({ zMm: 60 + 20 * i, lowMm: -w / 2, highMm: w / 2 })));
    expect(isthmusOf(canal)).toMatchObject({ zMm: 120, widthMm: 12.5, atEndOfTrace: false });
    const still = view([20, 16, 13, 12].map((w, i) => ({ zMm: 60 + 20 * i, lowMm: -w / 2, highMm: w / 2 })));
    expect(isthmusOf(still)?.atEndOfTrace).toBe(true);
    expect(isthmusOf(view(still.sections.slice(0, 2)))).toBeNull();
    expect(narrowestIsthmus([canal, null, { ...still, view: 'ap' }])?.widthMm).toBeCloseTo(12.5, 12);
    expect(narrowestIsthmus([null, null])).toBeNull();
  });

  test('STM-6 the bow of a circle is found within 2 % for published radii (826 to 1200 mm)', () => {
    for (const radius of [826, 943, 1120, 1200]) {
      const bow = canalBow(
        view(onCircle(radius, 13, { apexMm: 150, fromMm: 60, toMm: 240, stepMm: 12 }), { wallSdMm: 0.1 }),
      );
      if (!bow.ok) throw new Error(bow.reason.message);
      expect(Math.abs((bow.value.radiusMm ?? 0) / radius - 1)).toBeLessThan(0.02);
      // Convex to the front, the middle line curves away from high.
      expect(bow.value.curvaturePerMm).toBeLessThan(0);
    }
  });

  test('STM-6 a straight canal has no radius; with too few levels there is no bow at all', () => {
    const straight = Array.from({ length: 9 }, (_, i) => ({ zMm: 20 * i, lowMm: -7 + 0.04 * i, highMm: 7 + 0.04 * i }));
    const bow = canalBow(view(straight));
    expect(bow.ok && bow.value.radiusMm).toBeNull();
    expect(canalBow(view(straight.slice(0, 4))).ok).toBe(false);
  });

  test('STM-6 the spread of the curvature covers the truth in 95 of 100 traces with noise', () => {
    const exact = onCircle(950, 13, { apexMm: 150, fromMm: 60, toMm: 240, stepMm: 12 });
    const generator = xoroshiro128plus(5);
    const uniform = () => (generator.next() >>> 0) / 4294967296;
    const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    let inside = 0;
    const tries = 1000;
    for (let i = 0; i < tries; i++) {
      const noisy = exact.map((s) => ({ ...s, lowMm: s.lowMm + 0.7 * normal(), highMm: s.highMm + 0.7 * normal() }));
      const bow = canalBow(view(noisy));
      if (bow.ok && Math.abs(bow.value.curvaturePerMm + 1 / 950) <= 1.96 * bow.value.curvatureSdPerMm) inside++;
    }
    expect(inside / tries).toBeGreaterThan(0.93);
    expect(inside / tries).toBeLessThan(0.97);
  });

  // Lengths of a straight stem in a canal of one width by radius and play, from a published kind of table (chord and sagitta).
  const TABLE: readonly (readonly [number, readonly number[]])[] = [
    [826, [58, 82, 115, 141, 163]],
    [943, [62, 87, 123, 151, 174]],
    [1120, [67, 95, 134, 164, 190]],
    [1200, [70, 98, 139, 170, 196]],
  ];
  const PLAY = [0.5, 1, 2, 3, 4] as const;

  test('STM-5 the closed form gives the table of radius and play within 1 mm', () => {
    for (const [radius, lengths] of TABLE)
      lengths.forEach((length, i) => {
        const play = PLAY[i] ?? 0;
        expect(Math.abs(longestByBowMm(radius, 12 + play, 12) - length)).toBeLessThanOrEqual(1);
      });
    expect(longestByBowMm(900, 12, 12)).toBe(0);
  });

  test('STM-5 the exact programme gives the same table in the sampled canal', () => {
    for (const [radius, lengths] of TABLE)
      lengths.forEach((length, i) => {
        const play = PLAY[i] ?? 0;
        const canal = onCircle(radius, 12 + play, { apexMm: 0, fromMm: 0, toMm: 240, stepMm: 1 });
        const found = longestStraightStemMm(canal, 12, 30);
        expect(found.ok && Math.abs(found.value - length)).toBeLessThanOrEqual(2);
      });
  });
});

describe('the least tilt, judged by trying many', () => {
  /** Whether a slope passes: some shift between the highest low wall and the lowest high wall. */
  const passes = (canal: readonly CanalSection[], d: number, slope: number): boolean => {
    const above = Math.max(...canal.map((s) => s.lowMm + d / 2 - slope * s.zMm));
    const below = Math.min(...canal.map((s) => s.highMm - d / 2 - slope * s.zMm));
    return above <= below + 1e-9;
  };

  test('STM-4 in any canal no smaller tilt passes, and where none is found none passes', () => {
    fc.assert(
      fc.property(anyCanal, fc.double({ min: 8, max: 15, noNaN: true }), (canal, d) => {
        const fit = straightStem(canal, d);
        const tried = Array.from({ length: 401 }, (_, i) => (i - 200) / 400);
        if (!fit.ok) return tried.every((slope) => !passes(canal, d, slope));
        const least = Math.tan((fit.value.tiltDeg * Math.PI) / 180);
        return (
          passes(canal, d, least) && tried.every((s) => Math.abs(s) >= Math.abs(least) - 1e-9 || !passes(canal, d, s))
        );
      }),
      { numRuns: 300 },
    );
  });

  test('STM-4 clearance to each wall is the least of all levels, where it is said to be', () => {
    fc.assert(
      fc.property(anyCanal, fc.double({ min: 8, max: 11, noNaN: true }), (canal, d) => {
        const fit = straightStem(canal, d);
        if (!fit.ok) return true;
        const { tiltDeg, startMm, clearanceMm, clearanceAtMm, playMm } = fit.value;
        const axis = (z: number) => startMm + Math.tan((tiltDeg * Math.PI) / 180) * z;
        const low = canal.map((s) => ({ z: s.zMm, mm: axis(s.zMm) - d / 2 - s.lowMm }));
        const least = low.reduce((a, b) => (b.mm < a.mm ? b : a));
        const there = low.find((l) => l.z === clearanceAtMm.low);
        return (
          Math.abs(least.mm - clearanceMm.low) < 1e-6 &&
          Math.abs((there?.mm ?? 9) - least.mm) < 1e-6 &&
          playMm === clearanceMm.high
        );
      }),
    );
  });

  test('STM-4 a mirrored limb has the same numbers with the tilt turned, a shifted canal only its start moved, a scaled one all lengths scaled', () => {
    fc.assert(
      fc.property(
        anyCanal,
        fc.double({ min: 8, max: 12, noNaN: true }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        (canal, d, by) => {
          const [a, m, t, k] = [
            straightStem(canal, d),
            straightStem(mirrored(canal), d),
            straightStem(shifted(canal, by), d),
            straightStem(scaled(canal, 1.7), 1.7 * d),
          ];
          if (!a.ok || !m.ok || !t.ok || !k.ok) return !a.ok && !m.ok && !t.ok && !k.ok;
          const near = (x: number, y: number) => Math.abs(x - y) < 1e-6;
          return (
            near(a.value.tiltDeg, -m.value.tiltDeg) &&
            near(a.value.startMm, -m.value.startMm) &&
            near(a.value.tiltDeg, t.value.tiltDeg) &&
            near(a.value.startMm + by, t.value.startMm) &&
            near(a.value.tiltDeg, k.value.tiltDeg) &&
            near(1.7 * a.value.playMm, k.value.playMm)
          );
        },
      ),
    );
  });

  test('STM-5 the longest that passes does, and a millimetre more does not', () => {
    fc.assert(
      fc.property(anyCanal, fc.double({ min: 10, max: 14, noNaN: true }), (canal, d) => {
        const longest = longestStraightStemMm(canal, d, 4);
        const [mouth] = canal;
        if (!longest.ok) return mouth !== undefined && mouth.highMm - mouth.lowMm < d;
        const within = (length: number) => {
          const fit = straightStem(canalSpan(canal, 0, length), d);
          return fit.ok && Math.abs(fit.value.tiltDeg) <= 4 + 1e-6;
        };
        const whole = canal.at(-1)?.zMm ?? 0;
        return (
          (longest.value < 0.01 || within(longest.value)) &&
          (longest.value >= whole - 1e-6 || !within(longest.value + 1))
        );
      }),
    );
  });
});

describe('bowed stems', () => {
  test('STM-14 the drop of an arc is chord and sagitta: 5.3 mm at 100 mm of radius 943, 21.5 mm at 200', () => {
    expect(bowDropMm({ radiusMm: 943, seatMm: 0 }, 100)).toBeCloseTo(5.3, 1);
    expect(Math.abs(bowDropMm({ radiusMm: 943, seatMm: 0 }, 200) - 21.5)).toBeLessThan(0.3);
    expect(bowDropMm({ radiusMm: 943, seatMm: 30 }, 20)).toBe(0);
  });

  test('STM-14 a stem bowed as its canal passes it whole where the straight one is stopped', () => {
    const canal = onCircle(1000, 14, { apexMm: 0, fromMm: 0, toMm: 200, stepMm: 10 });
    expect(straightStem(canal, 13.5).ok).toBe(false);
    const bowed = straightStem(straightenedFor(canal, { radiusMm: 1000, seatMm: 0 }), 13.5);
    expect(bowed.ok && Math.abs(bowed.value.tiltDeg)).toBeLessThan(0.2);
  });

  test('STM-14 no tilt and shift of the true arc passes that the straightened canal refuses, nor the other way, within 0.1 mm', () => {
    const stemRadius = 1000;
    /** The largest arc stem, found by trying tilts of the true arc, turned about its seat. */
    const largest = (canal: readonly CanalSection[]): number => {
      let best = 0;
      for (let tilt = -0.06; tilt <= 0.06; tilt += 0.001) {
        const axis = Array.from({ length: 101 }, (_, i) => {
          const u = (200 * i) / 100;
          const y = Math.sqrt(stemRadius ** 2 - u ** 2) - stemRadius;
          return [u * Math.cos(tilt) - y * Math.sin(tilt), u * Math.sin(tilt) + y * Math.cos(tilt)] as const;
        });
        const rooms = axis.flatMap(([z, y]) => {
          const s = canalAt(canal, z);
          return s ? [{ low: y - s.lowMm, high: s.highMm - y }] : [];
        });
        best = Math.max(best, Math.min(...rooms.map((r) => r.low)) + Math.min(...rooms.map((r) => r.high)));
      }
      return best;
    };
    for (const radius of [800, 1200]) {
      const canal = onCircle(radius, 15, { apexMm: 0, fromMm: 0, toMm: 200, stepMm: 4 });
      const straightened = straightenedFor(canal, { radiusMm: stemRadius, seatMm: 0 });
      const d = largest(canal);
      expect(straightStem(straightened, d - 0.1).ok).toBe(true);
      expect(straightStem(straightened, d + 0.1).ok).toBe(false);
    }
  });
});

describe('canal fill', () => {
  const cone = [
    { zMm: 60, lowMm: -12, highMm: 12 },
    { zMm: 160, lowMm: -6, highMm: 6 },
    { zMm: 200, lowMm: -6, highMm: 6 },
  ];

  test('STM-7 lengths over 0.7 and 0.85 are exact in a tapering canal', () => {
    // 10.2 mm: over 0.85 where under 12 mm wide, over 0.7 where under 14.571 mm: from 138.57 on.
    const fill = canalFill(cone, { diameterMm: 10.5, fromMm: 20, toMm: 190 });
    expect(fill?.greatest).toBeCloseTo(10.5 / 12, 12);
    expect(fill?.over85Mm).toBeCloseTo(30 + (100 * (10.5 / 0.85 - 12)) / 12, 9);
    expect(fill?.over70Mm).toBeCloseTo(30 + (100 * (15 - 12)) / 12, 9);
    expect(canalFill(cone, { diameterMm: 10, fromMm: 0, toMm: 50 })).toBeNull();
  });

  test('STM-7 the published limits: femur over 0.7 along 20 mm or over 0.85, tibia over 0.85, 40 mm of engagement', () => {
    const fill = { greatest: 0.8, greatestAtMm: 100, over70Mm: 21, over85Mm: 0 };
    expect(fillMeets(fill, 'femur')).toEqual({ fill: true, engaged: false });
    expect(fillMeets(fill, 'tibia')).toEqual({ fill: false, engaged: false });
    expect(fillMeets({ ...fill, over70Mm: 20 }, 'femur').fill).toBe(false);
    expect(fillMeets({ ...fill, greatest: 0.86, over85Mm: 40 }, 'tibia')).toEqual({ fill: true, engaged: true });
  });
});

describe('a post held without offset', () => {
  const canal = [
    { zMm: 40, lowMm: -10, highMm: 14 },
    { zMm: 80, lowMm: -4, highMm: 12 },
    { zMm: 120, lowMm: -2, highMm: 12 },
  ];

  test('STM-10 it meets the wall where the room runs out, exactly', () => {
    // Low wall reaches -6 half way and a third: -10 + 6 t = -6 at t = 2/3.
    const met = firstContact(canal, { diameterMm: 12, seatMm: 40, acrossMm: 0, tiltDeg: 0 });
    expect(met).toEqual({ zMm: 40 + 40 * (2 / 3), wall: 'low' });
    expect(firstContact(canal, { diameterMm: 6, seatMm: 40, acrossMm: 4, tiltDeg: 0 })).toBeNull();
    expect(firstContact(canal, { diameterMm: 30, seatMm: 40, acrossMm: 0, tiltDeg: 0 })?.zMm).toBe(40);
  });

  test('STM-10 the axis of a leaning canal is carried to the seat', () => {
    const leaning = view(
      [0, 30, 60, 90].map((z) => ({ zMm: 50 + z, lowMm: 3 + 0.1 * z - 7, highMm: 3 + 0.1 * z + 7 })),
    );
    const axis = canalAxisAt(leaning, 30);
    expect(axis?.acrossMm).toBeCloseTo(1, 9);
    expect(axis?.leanDeg).toBeCloseTo((Math.atan(0.1) * 180) / Math.PI, 9);
    expect(canalAxisAt(view(leaning.sections.slice(0, 1)), 30)).toBeNull();
  });
});
