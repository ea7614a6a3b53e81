import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import { fieldOf } from './field.ts';
import type { ForecastLength } from './forecast-types.ts';
import { percentilesOf } from './percentiles.ts';
import { SPREAD_FIELDS, type SpreadField } from './uncertain-knee.ts';

/** What each length of a bone state is called, with its zero. */
export const FIELD_LABELS: Readonly<Record<SpreadField, string>> = {
  'femurDistalMm.medial': 'Distal femur above the joint line, medial',
  'femurDistalMm.lateral': 'Distal femur above the joint line, lateral',
  'femurPosteriorMm.medial': 'Posterior femur in front of its line, medial',
  'femurPosteriorMm.lateral': 'Posterior femur in front of its line, lateral',
  anteriorToPosteriorMm: 'Femur, front to back',
  femurWidthMm: 'Width of the femur',
  tibiaWidthMm: 'Width of the tibia',
  'tibiaMm.medial': 'Tibia below the joint line, medial',
  'tibiaMm.lateral': 'Tibia below the joint line, lateral',
  'extensionLaxityMm.medial': 'Laxity on target at 0 degrees, medial',
  'extensionLaxityMm.lateral': 'Laxity on target at 0 degrees, lateral',
  'flexionLaxityMm.medial': 'Laxity on target at 90 degrees, medial',
  'flexionLaxityMm.lateral': 'Laxity on target at 90 degrees, lateral',
  flexionContactBehindMm: 'Flexion contact behind extension contact',
  referenceSlopeDeg: 'Slope as it is',
  femurCanalMm: 'Canal of the femur',
  tibiaCanalMm: 'Canal of the tibia',
};

const SEATING: readonly {
  readonly field: 'femurProximalMm' | 'femurAnteriorMm' | 'trayMm';
  readonly label: string;
}[] = [
  { field: 'femurProximalMm', label: 'Joint line of the construct above its target' },
  { field: 'femurAnteriorMm', label: 'Posterior surface of the construct in front of its target' },
  { field: 'trayMm', label: 'Bone face of the tray above the joint line' },
];

/** Lengths of the drawn knees, then of their constructs, by percentiles (FOR-9); what nobody measured is left out. */
export function forecastLengths(
  states: readonly BoneState[],
  constructs: readonly (Construct | null)[],
): readonly ForecastLength[] {
  const built = constructs.filter((c) => c !== null);
  const ofBone = SPREAD_FIELDS.flatMap((field): ForecastLength[] => {
    const sample = states.map((state) => fieldOf(state, field)).filter((v) => v !== null);
    const unit = field === 'referenceSlopeDeg' ? 'deg' : 'mm';
    if (sample.length === 0) return [];
    return [{ field, label: FIELD_LABELS[field], unit, percentiles: percentilesOf(sample) }];
  });
  if (built.length === 0) return ofBone;
  const seated = SEATING.map(
    ({ field, label }): ForecastLength => ({
      field: `construct.${field}`,
      label,
      unit: 'mm',
      percentiles: percentilesOf(built.map((c) => c[field])),
    }),
  );
  return [...ofBone, ...seated];
}
