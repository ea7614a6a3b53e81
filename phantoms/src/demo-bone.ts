import type { CaseFile } from '@gapline/core/plan/case.ts';

type Bone = NonNullable<CaseFile['bone']>;

/**
 * Bone stock of the demonstration knee as its films show it, by side and surface. Depths follow the phantom: 2 and 1 mm lost
 * behind the femoral component; the medial plateau 6 mm under the lateral one, by what was lost and by the tilt of the
 * tray. What no film of a phantom shows is invented: the cavity that the keel leaves, the quality of the rim, the holes of
 * two old screws in the tibia.
 */
export const DEMO_BONE: Bone = {
  femurMap: {
    distal: {
      medial: { depthMm: 2, depthSdMm: 1, unsupportedPct: 20, rim: 'intact', contained: true },
      lateral: { depthMm: 1, depthSdMm: 1, unsupportedPct: 10, rim: 'intact', contained: true },
    },
    posterior: {
      medial: { depthMm: 1, depthSdMm: 1, unsupportedPct: 15, rim: 'intact', contained: true },
      lateral: { depthMm: 1, depthSdMm: 1, unsupportedPct: 15, rim: 'intact', contained: true },
    },
    anterior: { depthMm: 0, depthSdMm: 1, unsupportedPct: 0, rim: 'intact', contained: true },
    metaphysis: { flare: 'intact' },
    diaphysis: { outerDiameterMm: 28 },
    medialCollateral: 'held',
    lateralCollateral: 'held',
    reachesEpicondyles: false,
  },
  tibiaMap: {
    plateau: {
      medial: { depthMm: 6, depthSdMm: 1.5, unsupportedPct: 45, rim: 'lost', contained: false },
      lateral: { depthMm: 1, depthSdMm: 1, unsupportedPct: 10, rim: 'intact', contained: true },
    },
    metaphysis: {
      flare: 'short-medial',
      cavityWidthMm: 41,
      cavityApMm: 30,
      cavityHeightMm: 30,
      cavityFromPlaneMm: 0,
      wallMm: 4,
      hostContactPct: 70,
    },
    diaphysis: { outerDiameterMm: 25, weakSpots: [{ kind: 'screw-holes', farEndMm: 45 }] },
    medialCollateral: 'held',
    lateralCollateral: 'held',
    patellarTendon: 'held',
    reachesTubercle: false,
  },
  femurFixation: 'cemented',
  tibiaFixation: 'loose',
};

/** Asked of the kit of the demonstration case. */
export const DEMO_KIT: NonNullable<CaseFile['kit']> = { sharePct: 99, surgeryOn: '2025-06-16' };

/** Chances that the surgeon of the demonstration case states; invented. */
export const DEMO_FORECAST: NonNullable<CaseFile['forecast']> = {
  seed: 7380,
  draws: 2000,
  fractureChance: 0.02,
  infectionChance: 0.03,
  mclWorseChance: 0.05,
  lclWorseChance: 0.03,
  femurWorseChance: 0.15,
  tibiaWorseChance: 0.25,
  // The canals were entered by hand, so their spread is stated by hand too.
  spreads: { femurCanalMm: 0.7, tibiaCanalMm: 0.7 },
};
