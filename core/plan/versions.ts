import type { Catalogue } from '../catalogue/catalogue.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { LANDMARK_DISTANCES_VERSION } from '../joint-line/landmark-distances.ts';
import { ALIGNMENT_TARGETS_VERSION } from '../limb/alignment-targets.ts';
import { ROTATION_TABLE_VERSION } from '../rotation/published-rotation.ts';
import type { Plan } from './plan.ts';
import { SOURCES_VERSION } from './sources.ts';

/** Version of the calculations as a whole; every saved plan carries it. Raised with every change of a number. */
export const CORE_VERSION = '0.1.0';

/** Versions of core and of every table that has a say in a plan; `rotation` where the case has a CT stack. */
export const versionsOf = (weights: WeightTable, catalogue: Catalogue | null, rotation: boolean): Plan['versions'] => ({
  core: CORE_VERSION,
  tables: {
    alignment: ALIGNMENT_TARGETS_VERSION,
    landmarks: LANDMARK_DISTANCES_VERSION,
    sources: SOURCES_VERSION,
    weights: weights.version,
    ...(rotation ? { rotation: ROTATION_TABLE_VERSION } : {}),
    ...(catalogue ? { catalogue: `${catalogue.id} ${catalogue.version} of ${catalogue.retrievedOn}` } : {}),
  },
});
