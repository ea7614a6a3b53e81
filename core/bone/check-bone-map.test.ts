import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FemurMap, TibiaMap } from './bone-map.ts';
import { checkBoneMap } from './check-bone-map.ts';

const femur = (map: FemurMap) => ({ bone: 'femur', map }) as const;
const tibia = (map: TibiaMap) => ({ bone: 'tibia', map }) as const;
const medial = (loss: NonNullable<NonNullable<TibiaMap['plateau']>['medial']>) => tibia({ plateau: { medial: loss } });

// Each map with the one field that the contradiction stands at. Logic, no source needed.
const CONTRADICTIONS = [
  [
    'no depth, but 60 % unsupported',
    medial({ depthMm: 0, unsupportedPct: 60 }),
    'bone.tibiaMap.plateau.medial.unsupportedPct',
  ],
  [
    '8 mm deep, but nothing unsupported',
    medial({ depthMm: 8, unsupportedPct: 0 }),
    'bone.tibiaMap.plateau.medial.unsupportedPct',
  ],
  [
    'rim intact and not contained',
    medial({ rim: 'intact', contained: false }),
    'bone.tibiaMap.plateau.medial.contained',
  ],
  ['rim lost and contained', medial({ rim: 'lost', contained: true }), 'bone.tibiaMap.plateau.medial.contained'],
  [
    'rim intact and the whole surface lost',
    medial({ depthMm: 9, unsupportedPct: 100, rim: 'intact' }),
    'bone.tibiaMap.plateau.medial.rim',
  ],
  [
    'rim intact and the segment lost',
    tibia({ plateau: { lateral: { rim: 'intact' } }, metaphysis: { flare: 'absent' } }),
    'bone.tibiaMap.metaphysis.flare',
  ],
  [
    'contained and the flare gone',
    femur({ posterior: { medial: { contained: true } }, metaphysis: { flare: 'absent' } }),
    'bone.femurMap.metaphysis.flare',
  ],
  [
    'flare shortened over a surface without loss',
    tibia({ plateau: { medial: { depthMm: 0, unsupportedPct: 0 } }, metaphysis: { flare: 'short-medial' } }),
    'bone.tibiaMap.metaphysis.flare',
  ],
  [
    'attachments held, but the loss reaches the epicondyles',
    femur({ reachesEpicondyles: true, medialCollateral: 'held', lateralCollateral: 'held' }),
    'bone.femurMap.medialCollateral',
  ],
  [
    'tendon held, but the loss reaches beyond the tubercle',
    tibia({ reachesTubercle: true, patellarTendon: 'held' }),
    'bone.tibiaMap.patellarTendon',
  ],
  [
    'flare intact, but the loss reaches the epicondyles',
    femur({ reachesEpicondyles: true, metaphysis: { flare: 'intact' } }),
    'bone.femurMap.reachesEpicondyles',
  ],
  [
    '30 mm deep, but not reaching the tubercle',
    tibia({ plateau: { medial: { depthMm: 30 } }, reachesTubercle: false }),
    'bone.tibiaMap.reachesTubercle',
  ],
  [
    'all host bone with a wall gone',
    tibia({ metaphysis: { wallMm: 0, hostContactPct: 100 } }),
    'bone.tibiaMap.metaphysis.hostContactPct',
  ],
  [
    'all host bone with the flare gone',
    femur({ metaphysis: { flare: 'absent', hostContactPct: 100 } }),
    'bone.femurMap.metaphysis.hostContactPct',
  ],
  ['a depth below zero', medial({ depthMm: -2 }), 'bone.tibiaMap.plateau.medial.depthMm'],
  ['a share over the whole', femur({ anterior: { unsupportedPct: 120 } }), 'bone.femurMap.anterior.unsupportedPct'],
  ['a depth that is no number', medial({ depthMm: Number.NaN }), 'bone.tibiaMap.plateau.medial.depthMm'],
] as const;

describe('a bone map against itself', () => {
  test.each(CONTRADICTIONS)('BONE-7 %s', (_, map, field) => {
    const found = checkBoneMap(map);
    expect(found.map((r) => r.field)).toContain(field);
    for (const r of found) expect([r.message.length > 10, (r.mend ?? '').length > 10]).toEqual([true, true]);
  });

  test('BONE-7 a cavity with its walls wider than the bone, and a canal wider than its shaft', () => {
    const map = tibia({
      metaphysis: { cavityWidthMm: 66, wallMm: 4, cavityApMm: 50 },
      diaphysis: { outerDiameterMm: 24 },
    });
    expect(checkBoneMap(map, { widthMm: 72, apMm: 52, canalMm: 25 }).map((r) => r.field)).toEqual([
      'bone.tibiaMap.metaphysis.cavityWidthMm',
      'bone.tibiaMap.metaphysis.cavityApMm',
      'bone.tibiaMap.diaphysis.outerDiameterMm',
    ]);
    expect(checkBoneMap(map, { widthMm: 75, apMm: 58, canalMm: 14 })).toEqual([]);
    // What is not known of the bone is not checked.
    expect(checkBoneMap(map)).toEqual([]);
  });

  test('BONE-7 nothing in an empty map and in a sound one contradicts itself', () => {
    expect(checkBoneMap(femur({}))).toEqual([]);
    expect(
      checkBoneMap(
        tibia({
          plateau: {
            medial: { depthMm: 12, unsupportedPct: 60, rim: 'lost', contained: false },
            lateral: { depthMm: 0, unsupportedPct: 0, rim: 'intact', contained: true },
          },
          metaphysis: { flare: 'short-medial', cavityWidthMm: 30, wallMm: 5, hostContactPct: 80 },
          patellarTendon: 'held',
          reachesTubercle: false,
        }),
        { widthMm: 74 },
      ),
    ).toEqual([]);
  });

  test('BONE-7 a posterior condyle 30 mm deep reaches no epicondyle', () => {
    expect(checkBoneMap(femur({ posterior: { medial: { depthMm: 30 } }, reachesEpicondyles: false }))).toEqual([]);
  });

  test('BONE-7 leaves the map as it was and says the same each time', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true }), fc.double({ noNaN: true }), (depthMm, unsupportedPct) => {
        const map = medial(Object.freeze({ depthMm, unsupportedPct }));
        expect(checkBoneMap(map)).toEqual(checkBoneMap(map));
      }),
      { numRuns: 50, seed: 1 },
    );
  });
});
