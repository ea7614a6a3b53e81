import { measuredFields } from './field.ts';
import type { Forecast } from './forecast-types.ts';
import { FIELD_LABELS } from './lengths.ts';
import type { UncertainKnee } from './uncertain-knee.ts';

type NotStated = Forecast['notStated'][number];

const CHANCES: Readonly<Record<keyof UncertainKnee['chances'], readonly [what: string, wouldChange: string]>> = {
  femurWorse: ['Chance that the femur is one class worse', 'Femoral augments, cones, stems and constraint.'],
  tibiaWorse: ['Chance that the tibia is one class worse', 'Blocks, cones, stems and constraint.'],
  mclWorse: ['Chance that the medial ligament is weaker than examined', 'The share of knees that need a hinge.'],
  lclWorse: [
    'Chance that the lateral ligament is weaker than examined',
    'The share of knees that need more constraint.',
  ],
  fracture: ['Chance of a fracture at removal', 'Whether fixation must be in the room.'],
  infection: ['Chance of an infection that nobody expects', 'Whether a spacer must be in the room.'],
};

const SURFACES: Readonly<Record<keyof UncertainKnee['removal'], readonly [what: string, wouldChange: string]>> = {
  femurDistal: ['Loss at removal, distal femur', 'Distal augments and the joint line.'],
  femurPosterior: ['Loss at removal, posterior femur', 'Posterior augments and the flexion gap.'],
  tibia: ['Loss at removal, tibia', 'Blocks, insert and where the tray stands.'],
};

/**
 * Everything that a knee's draws are made without (FOR-8): chances count as not happening, spreads and losses as none,
 * and each is named here with what it would change. Empty = all is stated.
 */
export function notStatedOf(knee: UncertainKnee): readonly NotStated[] {
  const chances = (Object.keys(CHANCES) as (keyof typeof CHANCES)[])
    .filter((name) => knee.chances[name].chance === null)
    .map((name) => ({
      what: `${CHANCES[name][0]}: counted as not happening`,
      field: `forecast.${name}Chance`,
      wouldChange: CHANCES[name][1],
    }));
  const losses = (Object.keys(SURFACES) as (keyof typeof SURFACES)[])
    .filter((name) => knee.removal[name] === null)
    .map((name) => ({
      what: SURFACES[name][0],
      field: name === 'tibia' ? 'bone.tibiaFixation' : 'bone.femurFixation',
      wouldChange: SURFACES[name][1],
    }));
  const common = new Set((knee.shared ?? []).flatMap(({ moves }) => Object.keys(moves)));
  const spreads = measuredFields(knee.expected)
    .filter((field) => knee.spreads[field] === undefined && !common.has(field))
    .map((field) => ({
      what: `Spread of: ${FIELD_LABELS[field]}`,
      field: `forecast.spreads.${field}`,
      wouldChange: 'How often the plan holds.',
    }));
  return [...spreads, ...losses, ...chances];
}
