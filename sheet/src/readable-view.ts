import type { View } from '@gapline/core/landmarks/view.ts';

const VIEWS: Readonly<Record<View, string>> = {
  'long-leg': 'Long leg, standing',
  ap: 'From in front',
  lateral: 'From the side',
  skyline: 'Skyline',
  'stress-varus': 'Varus stress',
  'stress-valgus': 'Valgus stress',
  ct: 'CT',
  other: 'Other view',
};

export const readableView = (view: View): string => VIEWS[view];
