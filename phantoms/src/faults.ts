import type { DrawnLimb } from './anthropometry.ts';
import { type Chance, chance } from './chance.ts';
import type { Vary } from './vary.ts';

/** What was put into a knee and what went wrong with it; mm and degrees. */
export interface Replacement {
  readonly femurWidthMm: number;
  readonly femurApMm: number;
  readonly femurDistalMm: number;
  readonly femurPosteriorMm: number;
  /** Femoral component proximal (+) to the native joint line, at its middle. */
  readonly raisedMm: number;
  /** Posterior surface of the component in front (+) of the native one. */
  readonly forwardMm: number;
  /** mLDFA of the component. */
  readonly femurAngleDeg: number;
  readonly femurFlexionDeg: number;
  readonly trayWidthMm: number;
  readonly trayApMm: number;
  readonly trayThicknessMm: number;
  readonly keelMm: number;
  readonly insertMm: number;
  /** Upper face of the tray under the native joint line, at its middle; subsidence included. */
  readonly trayDepthMm: number;
  /** Tilt of the tray, varus +. */
  readonly trayVarusDeg: number;
  readonly traySlopeDeg: number;
  readonly cementMm: number;
  readonly subsidenceMm: number;
  readonly tibialLossMm: { readonly medial: number; readonly lateral: number };
  readonly femoralLossMm: { readonly medial: number; readonly lateral: number };
  readonly posteriorLossMm: number;
  readonly lucentMm: number;
  readonly hardware: 'none' | 'screws' | 'staple';
  /** Laxity that each ligament would show at 0 and 90 degrees with the surfaces on target. */
  readonly extensionLaxityMm: { readonly medial: number; readonly lateral: number };
  readonly flexionLaxityMm: { readonly medial: number; readonly lateral: number };
}

const half = (x: number): number => Math.round(2 * x) / 2;

function drawFaults(c: Chance) {
  const sunk = c.uniform() < 0.6;
  return {
    raised: c.normal(4, 3, 2),
    varus: sunk ? c.normal(4, 2, 2) : c.normal(0.5, 1.5, 2),
    subsidence: sunk ? c.normal(3, 1.2, 2) : 0,
    tibialLoss: sunk ? c.normal(5, 2, 2) : c.normal(1.5, 0.6, 2),
    femoralLoss: c.normal(2.5, 1.2, 2),
    lucent: c.uniform() < 0.5 ? c.normal(1.4, 0.3, 2) : 0,
    hardware: (['none', 'none', 'screws', 'staple'] as const)[Math.floor(4 * c.uniform())] ?? 'none',
    femurAngle: c.normal(90, 1.5, 2),
    femurFlexion: c.normal(2, 1.5, 1.3),
    slope: c.normal(3, 1.5, 2),
    insert: 9 + Math.floor(4 * c.uniform()),
    forward: c.normal(2.5, 1.2, 2),
  };
}

/** A failed primary replacement for the drawn limb; what is not asked for is drawn from the seed. */
export function drawReplacement(limb: DrawnLimb, seed: number, vary: Vary): Replacement {
  const c = chance(seed, 'replacement');
  const drawn = drawFaults(c);
  const subsidenceMm = vary.subsidence ?? drawn.subsidence;
  const primaryCutMm = 9;
  const trayThicknessMm = 4;
  const tibialMedial = vary.tibialloss ?? drawn.tibialLoss;
  const femoralMedial = vary.femoralloss ?? drawn.femoralLoss;
  const forwardMm = drawn.forward;
  return {
    femurWidthMm: half(0.885 * limb.epicondylarWidthMm),
    femurApMm: 0,
    femurDistalMm: 9,
    femurPosteriorMm: 9,
    raisedMm: vary.jointline ?? drawn.raised,
    forwardMm,
    femurAngleDeg: drawn.femurAngle,
    femurFlexionDeg: drawn.femurFlexion,
    trayWidthMm: half(0.96 * limb.tibiaWidthMm),
    trayApMm: half(0.92 * limb.tibiaApMm),
    trayThicknessMm,
    keelMm: 40,
    insertMm: vary.insert ?? drawn.insert,
    trayDepthMm: primaryCutMm - trayThicknessMm + subsidenceMm,
    trayVarusDeg: vary.varus ?? drawn.varus,
    traySlopeDeg: drawn.slope,
    cementMm: 1.5,
    subsidenceMm,
    tibialLossMm: { medial: tibialMedial, lateral: Math.min(1.5, 0.3 * tibialMedial) },
    femoralLossMm: { medial: femoralMedial, lateral: 0.5 * femoralMedial },
    posteriorLossMm: 0.4 * femoralMedial,
    lucentMm: vary.lucent ?? drawn.lucent,
    hardware: vary.hardware ?? drawn.hardware,
    extensionLaxityMm: { medial: c.normal(1, 0.4, 2), lateral: c.normal(1.8, 0.5, 2) },
    flexionLaxityMm: { medial: c.normal(1.5, 0.4, 2), lateral: c.normal(2.6, 0.6, 2) },
  };
}
