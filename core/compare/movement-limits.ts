import { SUBSIDENCE_LIMIT_MM, TILT_LIMIT_DEG } from '../failure/migration.ts';

/** Change from which a component counts as moved, by measurement, in its unit (CAUSE-4, from memory). */
export const MOVEMENT_LIMITS: Readonly<Record<string, number>> = {
  'tray-height': SUBSIDENCE_LIMIT_MM,
  'tray-height-medial': SUBSIDENCE_LIMIT_MM,
  'tray-height-lateral': SUBSIDENCE_LIMIT_MM,
  'femoral-component-height': SUBSIDENCE_LIMIT_MM,
  'tray-coronal': TILT_LIMIT_DEG,
  'femoral-component-coronal': TILT_LIMIT_DEG,
  'component-alpha': TILT_LIMIT_DEG,
  'component-beta': TILT_LIMIT_DEG,
  'component-gamma': TILT_LIMIT_DEG,
  'component-delta': TILT_LIMIT_DEG,
  'tibial-slope': TILT_LIMIT_DEG,
  'femoral-component-flexion': TILT_LIMIT_DEG,
};

/** Metal does not grow: a change of these says that one of the two scales is wrong (CMP-6). */
export const METAL_WIDTHS: readonly string[] = ['tray-width', 'femoral-component-width'];
