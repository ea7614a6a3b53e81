import type { BoneState } from '../../gaps/bone-state.ts';
import { easyKnee } from '../../gaps/easy-knee.ts';
import { SPREAD_FIELDS, type UncertainKnee } from '../uncertain-knee.ts';

/** A plain right knee for tests: joint line some millimetres high, tibia lower medially. Invented. */
export const EXAMPLE_STATE: BoneState = {
  ...easyKnee,
  femurDistalMm: { medial: 13, lateral: 12 },
  femurPosteriorMm: { medial: 11, lateral: 10 },
  anteriorToPosteriorMm: 63,
  femurWidthMm: 69,
  tibiaWidthMm: 73,
  tibiaMm: { medial: 17, lateral: 13 },
  extensionLaxityMm: { medial: 1, lateral: 2 },
  flexionLaxityMm: { medial: 1, lateral: 3 },
  flexionContactBehindMm: 13,
  referenceSlopeDeg: 3,
  femurClass: '2A',
  tibiaClass: '2A',
  femurCanalMm: 15,
};

const NEVER = { chance: 0, from: 'a test' } as const;
const NO_LOSS = { leastMm: 0, likelyMm: 0, mostMm: 0, from: 'a test' } as const;

/** The example knee with nothing uncertain about it. */
export const CERTAIN_KNEE: UncertainKnee = {
  expected: EXAMPLE_STATE,
  spreads: Object.fromEntries(SPREAD_FIELDS.map((field) => [field, 0])),
  jointLineSdMm: 0,
  removal: { femurDistal: NO_LOSS, femurPosterior: NO_LOSS, tibia: NO_LOSS },
  chances: {
    femurWorse: NEVER,
    tibiaWorse: NEVER,
    mclWorse: NEVER,
    lclWorse: NEVER,
    fracture: NEVER,
    infection: NEVER,
  },
};

const of = (chance: number) => ({ chance, from: 'a test' });

/** The example knee with everything uncertain, `times` the usual spreads. */
export function uncertainExample(times = 1): UncertainKnee {
  const loss = { leastMm: 0, likelyMm: 0, mostMm: 3 * times, from: 'a test' };
  return {
    expected: EXAMPLE_STATE,
    spreads: Object.fromEntries(SPREAD_FIELDS.map((field) => [field, times * (field.endsWith('CanalMm') ? 0.5 : 1)])),
    jointLineSdMm: 1.5 * times,
    shared: [{ cause: 'scale', moves: { anteriorToPosteriorMm: 1.5 * times, 'femurPosteriorMm.medial': 0.5 * times } }],
    removal: { femurDistal: loss, femurPosterior: loss, tibia: loss },
    chances: {
      femurWorse: of(0.1 * times),
      tibiaWorse: of(0.2 * times),
      mclWorse: of(0.05 * times),
      lclWorse: of(0.05 * times),
      fracture: of(0.03 * times),
      infection: of(0.03 * times),
    },
  };
}
