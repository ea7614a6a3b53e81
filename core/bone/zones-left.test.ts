import { describe, expect, test } from 'vitest';
import type { BoneClass, BoneQuality } from './bone-class.ts';
import { zonesOfFixation } from './zones.ts';
import { zonesLeft } from './zones-left.ts';

const map = { bone: 'tibia', map: { metaphysis: { hostContactPct: 70 } } } as const;
const left = (boneClass: BoneClass | null, quality: BoneQuality | 'unknown') =>
  zonesLeft({ boneClass, quality, map, canalMm: 14 }).map((z) => z.left);

describe('zones of fixation that remain', () => {
  test('BONE-3 zone by zone: what holds, what wants a part, what is lost or not known', () => {
    expect(left('1', 'good')).toEqual(['holds', 'holds', 'with-a-part']);
    expect(left('1', 'sclerotic')).toEqual(['lost', 'holds', 'with-a-part']);
    expect(left('2A', 'unknown')).toEqual(['not-known', 'with-a-part', 'with-a-part']);
    expect(left('2B', 'good')).toEqual(['lost', 'with-a-part', 'with-a-part']);
    expect(left(null, 'good')).toEqual(['not-known', 'not-known', 'with-a-part']);
  });

  test('BONE-3 agrees with the count of the solver for every class, quality and choice of parts', () => {
    for (const boneClass of ['1', '2A', '2B', '3'] as const)
      for (const quality of ['good', 'sclerotic', 'osteoporotic', 'unknown'] as const)
        for (const [stem, cone, sleeve] of [
          [false, false, false],
          [true, false, false],
          [true, true, false],
          [true, false, true],
          [false, false, true],
        ] as const) {
          const part = [false, cone || sleeve, stem];
          const solid = zonesLeft({ boneClass, quality, map, canalMm: null })
            .filter(({ left: l }, i) => l === 'holds' || (l === 'with-a-part' && part[i]))
            .map((z) => z.zone);
          expect(zonesOfFixation({ boneClass, quality, stem, cone, sleeve }).solid).toEqual(solid);
        }
  });

  test('BONE-3 a sleeve counts like a cone, and weak spots are said', () => {
    const with2 = (parts: { cone: boolean; sleeve?: boolean }) =>
      zonesOfFixation({ boneClass: '3', quality: 'good', stem: true, ...parts }).solid;
    expect(with2({ cone: false, sleeve: true })).toEqual(with2({ cone: true }));
    expect(with2({ cone: false })).toEqual([3]);
    const weak = { bone: 'femur', map: { diaphysis: { weakSpots: [{ kind: 'window', farEndMm: 120 }] } } } as const;
    expect(zonesLeft({ boneClass: '2A', quality: 'good', map: weak, canalMm: null })[2]?.why).toContain('window');
  });
});
