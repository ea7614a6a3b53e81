import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome } from '../measure/outcome.ts';
import type { OwnCanal, TracedBone } from './canal-along-itself.ts';
import { bowRadius, cortexThickness, flare, narrowestWidth, type Shape, widthAt } from './canal-shape.ts';
import type { Measurement } from './measurement.ts';

type Bone = TracedBone['bone'];
export type Plane = 'ap' | 'lateral';

/** One thing that is measured on a traced canal. */
export interface CanalMeasure {
  readonly id: string;
  readonly label: string;
  readonly unit: Measurement['unit'];
  readonly sign: string;
  readonly rule: string;
  readonly source: string;
  readonly normal?: string;
  readonly plane: Plane;
  readonly bone: Bone;
  readonly inputs: readonly LandmarkId[];
  readonly of: (canal: OwnCanal) => Outcome<Shape>;
}

const BONES: Readonly<Record<Bone, string>> = { femur: 'Femoral', tibia: 'Tibial' };
export const PLANES: Readonly<Record<Plane, string>> = { ap: 'AP', lateral: 'lateral' };
const WALLS: Readonly<Record<Plane, readonly [low: string, high: string]>> = {
  ap: ['medial', 'lateral'],
  lateral: ['posterior', 'anterior'],
};
const ISTHMUS: Readonly<Record<Bone, string>> = {
  femur: 'isthmus 10.5 ± 1.5 (204 CT, Chinese); 12.3 ± 2.3 (Noble 1988, from memory)',
  tibia: '10.3 ± 1.1 (men), 9.6 ± 1.2 (women) on AP films, 228 Vietnamese',
};

const shared = { unit: 'mm' as const, inputs: [] };

/** What each view of each canal gives by itself. */
const inOneView = (bone: Bone, plane: Plane): readonly CanalMeasure[] => {
  const where = { bone, plane };
  const named = `${bone === 'femur' ? 'femoral' : 'tibial'}-canal-${plane}`;
  const title = `${BONES[bone]} canal on the ${PLANES[plane]} film`;
  return [
    {
      ...shared,
      ...where,
      id: named,
      label: `${title}, narrowest width traced`,
      sign: 'inner width, always positive',
      rule: 'LIMB-33',
      source: 'least mean of three levels, STM-6',
      normal: ISTHMUS[bone],
      of: narrowestWidth,
    },
    ...WALLS[plane].map(
      (wall, i): CanalMeasure => ({
        ...shared,
        ...where,
        id: `${bone === 'femur' ? 'femoral' : 'tibial'}-cortex-${wall}`,
        label: `${BONES[bone]} cortex, ${wall}, where the canal is narrowest`,
        sign: 'thickness, always positive',
        rule: 'LIMB-35',
        source: 'inner to outer wall, square to the canal (derived)',
        of: (canal) => cortexThickness(canal, i === 0 ? 'low' : 'high'),
      }),
    ),
  ];
};

const bow = (plane: Plane): CanalMeasure => ({
  ...shared,
  bone: 'femur',
  plane,
  id: plane === 'ap' ? 'femoral-bow-coronal' : 'femoral-bow-sagittal',
  label: `Femoral bow, radius on the ${PLANES[plane]} film`,
  sign: `+ = convex ${WALLS[plane][1]}, - = convex ${WALLS[plane][0]}; large = straight`,
  rule: 'LIMB-36',
  source: 'parabola through the middles of the canal',
  ...(plane === 'lateral'
    ? { normal: '943, Asian women 826 (1232 CT); 1120 ± 260 (3922 CT); 1200 ± 360 (Egol 2004, from memory)' }
    : {}),
  of: bowRadius,
});

interface FlareLevels {
  readonly bone: Bone;
  /** The joint line of the bone; heights count from it. */
  readonly line: readonly [LandmarkId, LandmarkId];
  /** Where the wide end is counted from: a bony point, else the line itself. */
  readonly from: LandmarkId | null;
  readonly shaftMm: number;
  readonly nearMm: number;
}

/** Heights of the published index: femur 20 cm above the joint and 2 cm above the adductor tubercle, tibia 16 cm and 3 cm below the plateau. */
const flareLevels = (state: KneeEvidence['state']): readonly FlareLevels[] => [
  {
    bone: 'femur',
    line: ['medial-condyle-distal', 'lateral-condyle-distal'],
    from: 'adductor-tubercle',
    shaftMm: 200,
    nearMm: 20,
  },
  {
    bone: 'tibia',
    line: state === 'replaced' ? ['tray-medial-edge', 'tray-lateral-edge'] : ['medial-plateau', 'lateral-plateau'],
    from: null,
    shaftMm: 160,
    nearMm: 30,
  },
];

function flareMeasures({ bone, line, from, shaftMm, nearMm }: FlareLevels): readonly CanalMeasure[] {
  const level = (canal: OwnCanal, which: 'shaft' | 'near'): Outcome<Shape> => {
    const zero = which === 'near' && from ? canal.levelOf(from) : canal.levelOfLine(line);
    return zero === null ? cannot(NO_LEVEL) : widthAt(canal, zero + (which === 'near' ? nearMm : shaftMm));
  };
  const named = bone === 'femur' ? 'femoral' : 'tibial';
  const cm = (mm: number) => `${mm / 10} cm`;
  const where =
    bone === 'femur'
      ? { shaft: `${cm(shaftMm)} above the joint line`, near: `${cm(nearMm)} above the adductor tubercle` }
      : { shaft: `${cm(shaftMm)} below the plateau or tray`, near: `${cm(nearMm)} below it` };
  const common = { bone, plane: 'ap' as const, rule: 'LIMB-34', source: 'Citak index (inner widths at these levels)' };
  const inputs = [...line, ...(from ? [from] : [])];
  const one = (which: 'shaft' | 'near'): CanalMeasure => ({
    ...common,
    id: `${named}-canal-${which}`,
    label: `${BONES[bone]} canal, inner width ${where[which]}`,
    unit: 'mm',
    sign: 'inner width, always positive',
    inputs: which === 'near' && from ? [from] : line,
    of: (canal) => level(canal, which),
  });
  return [
    one('shaft'),
    one('near'),
    {
      ...common,
      id: `${named}-canal-flare`,
      label: `${BONES[bone]} canal, flare index`,
      unit: '1',
      sign: `width ${where.shaft} over width ${where.near}; smaller = more flared`,
      inputs,
      of: (canal) =>
        combine(level(canal, 'shaft'), level(canal, 'near'), (shaft, near) =>
          flare(shaft, near, canal.scaleRelativeSd),
        ),
    },
  ];
}

export const NO_LEVEL = {
  code: 'level-not-marked',
  message: 'The joint line or the bony point that the level counts from is not marked on the film of the trace.',
  field: 'marks',
  mend: 'Mark it on that film.',
} as const;

/** Everything that is measured on traced canals, in the order in which it is shown. */
export const canalMeasures = (state: KneeEvidence['state']): readonly CanalMeasure[] => [
  ...(['femur', 'tibia'] as const).flatMap((bone) =>
    (['ap', 'lateral'] as const).flatMap((plane) => inOneView(bone, plane)),
  ),
  ...flareLevels(state).flatMap(flareMeasures),
  bow('ap'),
  bow('lateral'),
];
