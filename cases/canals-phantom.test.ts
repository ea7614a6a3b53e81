import { calibrateFilms } from '@gapline/core/plan/calibrate-films.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { evidenceFor } from '@gapline/core/plan/make-plan.ts';
import { type StemScene, tracedCanal } from '@gapline/core/plan/stem-plan-canals.ts';
import { canalBow } from '@gapline/core/stems/canal-bow.ts';
import type { CanalInView } from '@gapline/core/stems/canal-view.ts';
import { canalWidths, isthmusOf } from '@gapline/core/stems/canal-width.ts';
import { trueCanal } from '@gapline/phantoms/src/canal-walls.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import type { Leg } from '@gapline/phantoms/src/leg.ts';
import { describe, expect, test } from 'vitest';
import { caseOfLimb, type PlacedLimb, placedLimb } from './phantom-case.ts';

// The phantom's canal is a tube in space; the film shows its shadow, and the estimator reads the shadow back. No formula is shared.

const LIMBS = 12;
const WALL_SD_MM = 0.7;
const limbs = Array.from({ length: LIMBS }, (_, i) => placedLimb(300 + i, { ideal: true }));

/** Walls as they truly lie on each present film of the operated leg. */
const walls = limbs.map(({ phantom, films }) =>
  films.flatMap(({ planned, mmPerPx }) => {
    const s = planned.scene.legs.find((l) => l.leg === phantom[phantom.side]);
    if (!s || planned.role !== 'present') return [];
    return (['femur', 'tibia'] as const).map((bone) => ({
      bone,
      film: planned.id,
      mmPerPx,
      levels: trueCanal(planned.scene, s, bone),
    }));
  }),
);

type Bone = 'femur' | 'tibia';

/** The case with its canals traced exactly or, with a draw, everything moved by its spread: marks, scales, and each wall. */
function tracedCase(index: number, draw?: number): CaseFile {
  const made = limbs[index];
  if (!made) throw new Error(`no limb ${index}`);
  const luck = draw === undefined ? null : chance(made.phantom.seed * 100 + draw, 'walls');
  const canals = (walls[index] ?? []).map(({ bone, film, mmPerPx, levels }) => {
    const by = () => (luck ? luck.normal(0, WALL_SD_MM / mmPerPx) : 0);
    const at = (p: { x: number; y: number }) => ({ x: p.x + by(), y: p.y + by() });
    return {
      bone,
      film,
      sdMm: WALL_SD_MM,
      levels: levels.map((l) => ({ innerA: at(l.innerA), innerB: at(l.innerB) })),
    };
  });
  return { ...caseOfLimb(made, draw), canals };
}

/** A scene whose heights count from the present joint line: widths and bow do not depend on it. */
function sceneOf(file: CaseFile): StemScene {
  return {
    file,
    evidence: evidenceFor(file, calibrateFilms(file)),
    tilt: { femurDeg: 0, tibiaDeg: 0, valgusCutDeg: 5.5 },
    targetMm: 0,
    seats: {
      femur: { seatMm: 0, valgusDeg: 5.5, behindFlangeMm: null },
      tibia: { seatMm: 0, faceMm: 0, slopeDeg: 0 },
      from: 'none',
    },
    maps: { femur: {}, tibia: {} },
  };
}

/** Extent of the inner surface of a bone across one axis at a height of its own frame, mm. */
function trueExtent(
  leg: Leg,
  bone: Bone,
  { z, axis }: { readonly z: number; readonly axis: 0 | 1 },
): { low: number; high: number } {
  const { points, triangles } = leg[bone].inner;
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < triangles.length; k++) {
    const i = 3 * (triangles[k] ?? 0);
    const j = 3 * (triangles[k % 3 === 2 ? k - 2 : k + 1] ?? 0);
    const [a, b] = [(points[i + 2] ?? 0) - z, (points[j + 2] ?? 0) - z];
    if (a < 0 === b < 0) continue;
    const p = points[i + axis] ?? 0;
    const at = p + (a / (a - b)) * ((points[j + axis] ?? 0) - p);
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return { low, high };
}

const heights = (bone: Bone, count: number): number[] =>
  Array.from({ length: count }, (_, i) => (bone === 'femur' ? 60 + 12 * i : -50 - 12 * i));

/** Widths as measured in one view against those in space, level by level, in the shaft. */
function pairs(made: PlacedLimb, canal: CanalInView | null, bone: Bone) {
  if (!canal) return [];
  const leg = made.phantom[made.phantom.side];
  const at = heights(bone, canal.sections.length);
  return canalWidths(canal).flatMap((w, i) => {
    const z = at[i] ?? 0;
    const { low, high } = trueExtent(leg, bone, { z, axis: canal.view === 'ap' ? 0 : 1 });
    return Math.abs(z) >= 110 ? [{ error: w.widthMm - (high - low), sd: w.sdMm }] : [];
  });
}

const views = (index: number, file: CaseFile) =>
  (['femur', 'tibia'] as const).flatMap((bone) => {
    const { canal, refused } = tracedCanal(bone, sceneOf(file));
    expect(refused).toEqual([]);
    const made = limbs[index];
    return made ? [canal.ap, canal.lateral].flatMap((view) => pairs(made, view, bone)) : [];
  });

/** Middle of the inner surface front to back at a height, mm. */
const trueMiddle = (leg: Leg, z: number): number => {
  const { low, high } = trueExtent(leg, 'femur', { z, axis: 1 });
  return (low + high) / 2;
};

describe('canals of phantoms, from the shadow of their walls', () => {
  test('STM-6 exact walls give the canal in space within 0.4 mm at every level of the shaft, in both views of both bones', () => {
    const found = limbs.flatMap((_, i) => views(i, tracedCase(i)));
    expect(found.length).toBeGreaterThan(20 * LIMBS);
    expect(Math.max(...found.map((f) => Math.abs(f.error)))).toBeLessThan(0.4);
  });

  test('STM-6 with walls and scales off by their spreads 95 of 100 widths are inside their intervals', () => {
    const found = limbs.flatMap((_, i) => [1, 2, 3, 4].flatMap((draw) => views(i, tracedCase(i, draw))));
    const inside = found.filter((f) => Math.abs(f.error) <= 1.96 * f.sd).length / found.length;
    expect(inside).toBeGreaterThan(0.93);
    expect(inside).toBeLessThan(0.98);
  });

  test('STM-6 the isthmus that is offered covers the narrowest width in space in at least 92 of 100 traces with spread', () => {
    const found = limbs.flatMap(({ phantom }, i) =>
      [1, 2, 3, 4, 5].flatMap((draw) => {
        const { canal } = tracedCanal('femur', sceneOf(tracedCase(i, draw)));
        const isthmus = canal.ap && isthmusOf(canal.ap);
        if (!canal.ap || !isthmus) return [];
        const leg = phantom[phantom.side];
        const widths = heights('femur', canal.ap.sections.length).map((z) => trueExtent(leg, 'femur', { z, axis: 0 }));
        const truth = Math.min(...widths.map(({ low, high }) => high - low));
        return [Math.abs(isthmus.widthMm - truth) <= 1.96 * isthmus.sdMm];
      }),
    );
    expect(found.filter(Boolean).length / found.length).toBeGreaterThanOrEqual(0.92);
  });

  test('STM-6 the bow from the side is that of the canal in space, and over many limbs the one they were drawn with', () => {
    const ratios = limbs.map(({ phantom }, i) => {
      const { canal } = tracedCanal('femur', sceneOf(tracedCase(i)));
      const bow = canal.lateral && canalBow(canal.lateral);
      if (!bow?.ok || !canal.lateral) throw new Error('no bow');
      const leg = phantom[phantom.side];
      const at = heights('femur', canal.lateral.sections.length);
      const [first, last] = [at[0] ?? 0, at.at(-1) ?? 0];
      const middle = (first + last) / 2;
      const sagitta = trueMiddle(leg, middle) - (trueMiddle(leg, first) + trueMiddle(leg, last)) / 2;
      expect(Math.abs(-bow.value.sagittaMm - sagitta)).toBeLessThan(0.8);
      return -leg.limb.bowRadiusMm * bow.value.curvaturePerMm;
    });
    const sorted = ratios.toSorted((a, b) => a - b);
    expect(Math.abs((sorted[LIMBS / 2] ?? 0) - 1)).toBeLessThan(0.15);
  });
});
