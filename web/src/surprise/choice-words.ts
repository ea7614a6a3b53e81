import type { ForecastChoice } from '@gapline/core/forecast/forecast-types.ts';

/** The choices of a construct in words. */
export const CHOICE_WORDS: Readonly<Record<ForecastChoice, string>> = {
  level: 'Constraint',
  femur: 'Femoral component',
  'distal-medial': 'Distal augment, medial',
  'distal-lateral': 'Distal augment, lateral',
  'posterior-medial': 'Posterior augment, medial',
  'posterior-lateral': 'Posterior augment, lateral',
  tray: 'Tray',
  'block-medial': 'Tibial block, medial',
  'block-lateral': 'Tibial block, lateral',
  insert: 'Insert',
  'femoral-stem': 'Femoral stem',
  'tibial-stem': 'Tibial stem',
  'femoral-offset': 'Femoral offset',
  'tibial-offset': 'Tibial offset',
  'femoral-zone-2': 'Femoral metaphysis',
  'tibial-zone-2': 'Tibial metaphysis',
};
