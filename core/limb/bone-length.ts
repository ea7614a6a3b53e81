import { ANKLE, ankle, HIP, hip } from '../landmarks/bony-lines.ts';
import { femoralCentres, tibialCentres } from '../landmarks/knee-centre.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import type { Outcome } from '../measure/outcome.ts';
import { distance, type Point } from '../plane/point.ts';
import { type Definition, LONG_LEG } from './definition.ts';

type R = Reading<'coronal'>;

/** The film's scale holds at the depth of the knee; hip and ankle are magnified otherwise. */
const ALONG_THE_LIMB = {
  code: 'scale-differs-along-the-limb',
  message:
    'The scale is earned at the knee; along a long-leg film magnification differs (femur 7.3 ± 6.0, tibia 5.2 ± 1.3 per cent over a slot scanner in 101 limbs).',
  mend: 'Take bone lengths from a scaled CT scout or a slot scanner where they matter.',
} as const;

const whole = {
  frame: 'coronal' as const,
  unit: 'mm' as const,
  sign: 'length, always positive',
  rule: 'LIMB-10',
  needsScale: true,
};

const length = (a: Point<'coronal'>, b: Point<'coronal'>, r: R): Outcome<number> => millimetres(distance(a, b), r);

/** Mechanical length of the femur: head centre to femoral knee centre, mm. */
export const FEMORAL_LENGTH: Definition<'coronal'> = {
  ...whole,
  id: 'femoral-length',
  label: 'Femoral length (head centre to knee centre)',
  source: 'Osteology 2021; 1(2):9 (n 1077)',
  normal: 'bone length 500 (393 to 584) on uncorrected films, Osteology 2021',
  variants: (state) =>
    femoralCentres(state).map((f) => ({
      name: f.name,
      views: LONG_LEG,
      inputs: [...new Set([HIP, ...f.inputs])],
      cautions: [ALONG_THE_LIMB],
      formula: (r) => {
        const knee = f.centre(r);
        return knee.ok ? length(hip(r), knee.value, r) : knee;
      },
    })),
};

/** Mechanical length of the tibia: tibial knee centre to ankle centre, mm. */
export const TIBIAL_LENGTH: Definition<'coronal'> = {
  ...whole,
  id: 'tibial-length',
  label: 'Tibial length (knee centre to ankle centre)',
  source: 'Osteology 2021; 1(2):9 (n 1077)',
  normal: 'bone length 390 (308 to 465) on uncorrected films, Osteology 2021',
  variants: (state) =>
    tibialCentres(state).map((t) => ({
      name: t.name,
      views: LONG_LEG,
      inputs: [...new Set([...t.inputs, ...ANKLE])],
      cautions: [ALONG_THE_LIMB],
      formula: (r) => {
        const knee = t.centre(r);
        return knee.ok ? length(knee.value, ankle(r), r) : knee;
      },
    })),
};

const ENDS: readonly LandmarkId[] = [HIP, ...ANKLE];

/** Limb length: head centre straight to ankle centre, mm. */
export const LIMB_LENGTH: Definition<'coronal'> = {
  ...whole,
  id: 'limb-length',
  label: 'Limb length (head centre to ankle centre)',
  source: 'Osteology 2021; 1(2):9 (n 1077)',
  normal: '890 (702 to 1039) on uncorrected films, Osteology 2021',
  posture: ['load'],
  variants: () => [
    { views: LONG_LEG, inputs: ENDS, cautions: [ALONG_THE_LIMB], formula: (r) => length(hip(r), ankle(r), r) },
  ],
};
