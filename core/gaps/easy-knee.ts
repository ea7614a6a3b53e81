import type { BoneState } from './bone-state.ts';
import type { Construct } from './construct.ts';

const both = <T>(x: T) => ({ medial: x, lateral: x });

/** For tests: a knee that size 4 of the example system fits without anything else. */
export const easyKnee: BoneState = {
  side: 'right',
  femurDistalMm: both(9),
  femurPosteriorMm: both(9),
  anteriorToPosteriorMm: 62,
  femurWidthMm: 67.5,
  tibiaWidthMm: 72,
  tibiaMm: both(16),
  extensionLaxityMm: both(0),
  flexionLaxityMm: both(0),
  flexionContactBehindMm: 20,
  referenceSlopeDeg: 0,
  femurClass: '1',
  tibiaClass: '1',
  femurQuality: 'good',
  tibiaQuality: 'good',
  mcl: 'intact',
  lcl: 'intact',
  extensorMechanism: 'intact',
  recurvatumDeg: 0,
  femurCanalMm: 14,
  tibiaCanalMm: 14,
};

/** For tests: size 4 on target, balanced at 0 and 90 degrees in `easyKnee`. */
export const plainConstruct: Construct = {
  level: 'ps',
  femur: 'EX-F4R',
  distalAugments: both(null),
  posteriorAugments: both(null),
  tray: 'EX-T4',
  tibialAugments: both(null),
  insert: 'EX-I4P12',
  femoralStem: null,
  femoralOffset: null,
  tibialStem: null,
  femurProximalMm: 0,
  femurAnteriorMm: 0,
  posteriorShiftMm: 0,
  trayMm: -16,
  slopeDeg: 0,
};
