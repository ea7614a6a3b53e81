import { describe, expect, test } from 'vitest';
import { drawPerson } from './anthropometry.ts';
import { farthest, shaftMiddle } from './bone.ts';
import { buildFemur, posteriorOffset, shaftAngleDeg } from './femur.ts';
import { buildLeg } from './leg.ts';
import { signedVolume } from './mesh.ts';
import { deg } from './space.ts';
import { buildTibia } from './tibia.ts';

const seeds = [3, 14, 27, 58, 91, 120];
const limbs = seeds.map((s) => drawPerson(s).right);

describe('a warped femur has what was drawn for it', () => {
  test.each(limbs.map((l, i) => [seeds[i]!, l] as const))('seed %i', (_, limb) => {
    const femur = buildFemur(limb);
    const { at } = femur;
    expect(at.headCentre).toEqual([0, 0, limb.femurMm]);
    expect(at.medialEpicondyle[2]).toBeCloseTo(limb.medialEpicondyleMm, 6);
    expect(at.lateralEpicondyle[2]).toBeCloseTo(limb.lateralEpicondyleMm, 6);
    expect(at.adductorTubercle[2]).toBeCloseTo(limb.adductorTubercleMm, 6);
    const [m, l] = [at.medialEpicondyle, at.lateralEpicondyle];
    expect(Math.hypot(l[0] - m[0], l[2] - m[2])).toBeCloseTo(limb.epicondylarWidthMm, 6);
    expect(shaftAngleDeg(femur)).toBeCloseTo(limb.amaDeg, 1);
    const { offsetMm, depthMm } = posteriorOffset(femur.outer);
    expect(offsetMm / (offsetMm + depthMm)).toBeCloseTo(limb.pcor, 2);
    // The tangent of the bony condyles, found in the mesh alone, at the drawn mLDFA, 2 mm of cartilage over the joint line.
    const tilt = ((90 - limb.mldfaDeg) * Math.PI) / 180;
    const down = [Math.sin(tilt), 0, -Math.cos(tilt)] as const;
    const medial = farthest(femur.outer, down, (p) => p[0] < -8);
    const lateral = farthest(femur.outer, down, (p) => p[0] > 8);
    expect(deg(Math.atan2(lateral[2] - medial[2], lateral[0] - medial[0]))).toBeCloseTo(90 - limb.mldfaDeg, 1);
    expect(medial[2] - Math.tan(tilt) * medial[0]).toBeCloseTo(2, 1);
  });

  test('the shaft is bowed to the front: a smaller radius bows more', () => {
    const limb = limbs[0]!;
    const height = (bowRadiusMm: number) => {
      const { outer } = buildFemur({ ...limb, bowRadiusMm });
      const middle = shaftMiddle(outer, 60, limb.femurMm - 60);
      const [a, b, c] = [110, limb.femurMm / 2, limb.femurMm - 120].map((z) => middle(z)[1]);
      return b! - (a! + c!) / 2;
    };
    // Sagitta of the chord between the two levels: chord squared over eight radii.
    const chord = limb.femurMm - 230;
    expect(height(700) - height(1400)).toBeCloseTo(chord ** 2 / 8 / 700 - chord ** 2 / 8 / 1400, 0);
  });
});

describe('a warped tibia has what was drawn for it', () => {
  test.each(limbs.map((l, i) => [seeds[i]!, l] as const))('seed %i', (_, limb) => {
    const { at } = buildTibia(limb);
    expect(at.fibularTip[2]).toBeCloseTo(-limb.fibularTipMm, 6);
    expect(at.tubercle[2]).toBeCloseTo(-limb.tubercleMm, 6);
    expect(at.ankle).toEqual([0, 0, -limb.tibiaMm]);
    const [m, l] = [at.medialPlateau, at.lateralPlateau];
    expect(deg(Math.atan2(l[2] - m[2], l[0] - m[0]))).toBeCloseTo(90 - limb.mptaDeg, 6);
    const level = m[2] - ((l[2] - m[2]) / (l[0] - m[0])) * m[0];
    expect(level).toBeCloseTo(-2, 6);
  });
});

test('every bone of a leg stays a closed solid that faces outwards', () => {
  for (const limb of limbs.slice(0, 3)) {
    const leg = buildLeg(limb, null);
    for (const mesh of [leg.femur.outer, leg.femur.inner, leg.tibia.outer, leg.tibia.inner, leg.patella.outer]) {
      const edges = new Map<string, number>();
      const t = mesh.triangles;
      for (let k = 0; k < t.length; k++) {
        const [i, j] = [t[k]!, t[k % 3 === 2 ? k - 2 : k + 1]!];
        const key = i < j ? `${i}/${j}` : `${j}/${i}`;
        edges.set(key, (edges.get(key) ?? 0) + (i < j ? 1 : -1));
      }
      expect([...edges.values()].every((n) => n === 0)).toBe(true);
      expect(signedVolume(mesh)).toBeGreaterThan(0);
    }
    expect(signedVolume(leg.femur.inner)).toBeLessThan(signedVolume(leg.femur.outer));
  }
});
