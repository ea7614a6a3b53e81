import { MECHANICAL_AXIS_DEVIATION, WEIGHT_BEARING_RATIO } from './axis-deviation.ts';
import { FEMORAL_LENGTH, LIMB_LENGTH, TIBIAL_LENGTH } from './bone-length.ts';
import { COMPONENT_ANGLES_AP, COMPONENT_ANGLES_LATERAL } from './component-angles.ts';
import { COMPONENT_HEIGHTS } from './component-height.ts';
import { CONDYLES_APART } from './condyles-apart.ts';
import { CPAK } from './cpak.ts';
import type { Definition } from './definition.ts';
import { FEMORAL_FLEXION } from './femoral-flexion.ts';
import { FLANGE_GAP } from './flange-gap.ts';
import { HKA } from './hka.ts';
import { JLCA } from './jlca.ts';
import { ALDFA, FEMORAL_COMPONENT_CORONAL, MLDFA, VALGUS_CUT_ANGLE } from './mldfa.ts';
import { MPTA, TRAY_CORONAL } from './mpta.ts';
import { COVERAGE_AP, COVERAGE_LATERAL } from './overhang.ts';
import {
  BLACKBURNE_PEEL,
  CATON_DESCHAMPS,
  INSALL_SALVATI,
  MODIFIED_INSALL_SALVATI,
  PATELLAR_HEIGHT,
} from './patellar-height.ts';
import { POSTERIOR_CONDYLAR_OFFSET, POSTERIOR_CONDYLAR_OFFSET_RATIO } from './posterior-condylar-offset.ts';
import { STRESS_OPENINGS } from './stress-opening.ts';
import { TIBIAL_SLOPE } from './tibial-slope.ts';
import { WIDTHS } from './width.ts';

/** Everything that is measured on AP films, in the order in which it is shown. */
export const CORONAL_MEASUREMENTS: readonly Definition<'coronal'>[] = [
  HKA,
  MLDFA,
  MPTA,
  JLCA,
  ALDFA,
  VALGUS_CUT_ANGLE,
  MECHANICAL_AXIS_DEVIATION,
  WEIGHT_BEARING_RATIO,
  FEMORAL_LENGTH,
  TIBIAL_LENGTH,
  LIMB_LENGTH,
  ...CPAK,
  FEMORAL_COMPONENT_CORONAL,
  TRAY_CORONAL,
  ...COMPONENT_ANGLES_AP,
  ...COVERAGE_AP,
  ...COMPONENT_HEIGHTS,
  ...WIDTHS,
  ...STRESS_OPENINGS,
];

/** Everything that is measured on lateral films. */
export const SAGITTAL_MEASUREMENTS: readonly Definition<'sagittal'>[] = [
  FEMORAL_FLEXION,
  TIBIAL_SLOPE,
  POSTERIOR_CONDYLAR_OFFSET,
  POSTERIOR_CONDYLAR_OFFSET_RATIO,
  INSALL_SALVATI,
  MODIFIED_INSALL_SALVATI,
  BLACKBURNE_PEEL,
  CATON_DESCHAMPS,
  PATELLAR_HEIGHT,
  ...COMPONENT_ANGLES_LATERAL,
  FLANGE_GAP,
  ...COVERAGE_LATERAL,
  CONDYLES_APART,
];
