import type { Weight, WeightTable } from './weights.ts';

const PLANNING_DEFAULT = 'planning default of this project, grade D, no published source';

const weight = (
  id: string,
  label: string,
  rest: Omit<Weight, 'id' | 'label' | 'source'> & { source?: string },
): Weight => ({
  id,
  label,
  source: PLANNING_DEFAULT,
  ...rest,
});

const LAXITY_SOURCE = `customary windows (from memory); medial looseness worse than lateral: study of 656 posterior-stabilised knees; lateral flexion gap to 6 mm not harmful: study of 527 knees. Weight: ${PLANNING_DEFAULT}`;
const JOINT_LINE_SOURCE = `more than 4 mm: lower patellofemoral score in one study; mean elevation after revision 3.6 mm, function falls with elevation (van Lieshout 2019, KSSTA 27:1477). Weight: ${PLANNING_DEFAULT}`;

/**
 * The objective's weights, spec section 5: cost per unit outside the free zone. One cost unit is about what one
 * would give to spare the knee one millimetre of wrong laxity's half. Every practice may change each of them.
 */
export const DEFAULT_WEIGHTS: WeightTable = {
  version: '1.2',
  weights: [
    weight('joint-line-femur', 'Femoral joint line off target', {
      weight: 1,
      unit: 'mm',
      free: [-2, 2],
      reason: 'Two millimetres are within the uncertainty of the target itself.',
      source: JOINT_LINE_SOURCE,
    }),
    weight('joint-line-femur-far', 'Femoral joint line far off target', {
      weight: 2,
      unit: 'mm',
      free: [-4, 4],
      reason: 'Beyond 4 mm the patella and the ligaments feel it: charged on top.',
      source: JOINT_LINE_SOURCE,
    }),
    weight('joint-line-tibia', 'Bearing surface off target on the tibia', {
      weight: 0.5,
      unit: 'mm',
      free: [-4, 4],
      reason: 'A bearing that stands high above the tubercle brings the patella low.',
    }),
    weight('laxity-extension-medial', 'Medial laxity in extension', {
      weight: 2,
      unit: 'mm',
      free: [0, 2],
      reason: 'The medial side should be just taut; looseness there is felt as instability.',
      source: LAXITY_SOURCE,
    }),
    weight('laxity-extension-lateral', 'Lateral laxity in extension', {
      weight: 2,
      unit: 'mm',
      free: [0, 3],
      reason: 'The lateral side is naturally somewhat looser.',
      source: LAXITY_SOURCE,
    }),
    weight('laxity-flexion-medial', 'Medial laxity in flexion', {
      weight: 2,
      unit: 'mm',
      free: [0, 3],
      reason: 'Medial opening at 90 degrees in sound knees is about 2 mm.',
      source: `2.1 +/- 1.1 mm at 90 degrees on MRI (Tokuhara 2004). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('laxity-flexion-lateral', 'Lateral laxity in flexion', {
      weight: 1,
      unit: 'mm',
      free: [0, 5],
      reason: 'Lateral opening at 90 degrees in sound knees is 5 to 7 mm and is well borne.',
      source: `6.7 +/- 1.9 mm at 90 degrees on MRI (Tokuhara 2004). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('difference-extension', 'Lateral less medial laxity in extension', {
      weight: 1,
      unit: 'mm',
      free: [-2, 3],
      reason: 'No choice of parts changes it in this model: releases do. Shown so that it is not forgotten.',
      source: LAXITY_SOURCE,
    }),
    weight('difference-flexion', 'Lateral less medial laxity in flexion', {
      weight: 1,
      unit: 'mm',
      free: [-2, 3],
      reason: 'No choice of parts changes it in this model: rotation and releases do.',
      source: LAXITY_SOURCE,
    }),
    weight('flexion-extension', 'Flexion gap less extension gap', {
      weight: 1.5,
      unit: 'mm',
      free: [-2, 3],
      reason: 'Balanced within 2 mm; flexion may exceed by a little more.',
      source: `within 2 mm: study of 300 knees in functional alignment; flexion may exceed by 1 to 2 mm (from memory). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('arc', 'Laxity in mid-flexion, worst of 30, 45 and 60 degrees, each side', {
      weight: 1.5,
      unit: 'mm',
      free: [-1, 5],
      reason:
        'A raised joint line leaves the knee balanced at 0 and 90 degrees and slack between; opening beyond 5 mm counts as instability.',
      source: `more than 5 mm of opening between 10 and 45 degrees: definition of mid-flexion instability in clinical studies; a gap tighter by 2 mm raises the force on the bearing strongly (Jeffcote 2007), half of it is left free. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('femur-overhang', 'Femoral overhang, each side', {
      weight: 2,
      unit: 'mm',
      free: [0, 0],
      reason: 'Metal beyond bone irritates soft tissue.',
      source: `3 mm is the usual reporting threshold. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('femur-underhang', 'Femoral underhang, each side', {
      weight: 0.5,
      unit: 'mm',
      free: [0, 2],
      reason: 'Uncovered rim bleeds and bears no load.',
    }),
    weight('tray-overhang', 'Tray overhang, each side', {
      weight: 2,
      unit: 'mm',
      free: [0, 0],
      reason: 'Metal beyond bone irritates soft tissue, the medial collateral ligament first.',
      source: `3 mm is the usual reporting threshold. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('tray-underhang', 'Tray underhang, each side', {
      weight: 0.5,
      unit: 'mm',
      free: [0, 2],
      reason: 'A tray off the cortical rim subsides sooner.',
    }),
    weight('tray-front-back', 'Tray off the middle of the tibia, front to back', {
      weight: 1,
      unit: 'mm',
      free: [-3, 3],
      reason: 'A tray that its stem carries forward or back leaves one rim and stands over the other.',
      source: `3 mm is the usual reporting threshold of overhang; half its weight, because the depth of the bone is not in the model. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('bone-cut', 'Bone cut away, sum of the six faces', {
      weight: 0.8,
      unit: 'mm',
      free: [0, 0],
      reason: 'Bone that is cut is not there for the next operation.',
    }),
    weight('bone-replaced', 'Bone replaced by a segment, mean of both sides, each bone', {
      weight: 0.2,
      unit: 'mm',
      free: [0, 0],
      reason: 'A segmental component takes the whole end of the bone, and its revision has none left.',
      source: `distal femoral replacement outside tumours: 76 % unrevised at 5 years, 21 % infection (Sobol 2022). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('cement', 'Space filled with cement, sum of the six faces', {
      weight: 0.15,
      unit: 'mm',
      free: [0, 0],
      reason: 'Flush on bone is the rule; a thin mantle costs little.',
    }),
    weight('cement-deep', 'Cement deeper than 2 mm on a face', {
      weight: 0.8,
      unit: 'mm',
      free: [0, 2],
      reason: 'Deep unsupported cement is weak in shear; defects beyond 5 mm want an augment.',
      source: `cement alone to 5 mm: treatment algorithm in Rosso 2019 (J Orthop Surg Res, tables 1 and 2). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('flange-gap', 'Flange off the anterior cortex', {
      weight: 0.3,
      unit: 'mm',
      free: [0, 0],
      reason: 'Cement alone holds the flange there.',
    }),
    weight('augment-count', 'Augments', {
      weight: 0.6,
      unit: 'count',
      free: [0, 0],
      reason: 'Each one is a further interface and a further box to open.',
    }),
    weight('augment-thickness', 'Thickness of augments together', {
      weight: 0.08,
      unit: 'mm',
      free: [0, 0],
      reason: 'The thinner one is taken where both do.',
    }),
    weight('augment-thick', 'Augment thicker than 12 mm', {
      weight: 0.5,
      unit: 'mm',
      free: [0, 12],
      reason: 'Thick blocks are at the border of what metal blocks are for; a cone or a graft may be better.',
      source: `cement stress under single blocks to 20 mm: Kang 2019 (J Clin Med 8:384). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('insert-thick', 'Insert thicker than 12 mm', {
      weight: 0.25,
      unit: 'mm',
      free: [0, 12],
      reason: 'A thick insert often hides a joint line or a tibial cut at the wrong height.',
    }),
    weight('insert-very-thick', 'Insert thicker than 20 mm', {
      weight: 1,
      unit: 'mm',
      free: [0, 20],
      reason: 'Ask whether the tibia is too low or the joint line wrong.',
    }),
    weight('constraint', 'Constraint above the least that the ligaments need', {
      weight: 5,
      unit: 'level',
      free: [0, 0],
      reason: 'Constraint loads the fixation and is no balance.',
      source: `least constraint that is stable: Marya and Singh 2021 (J Orthop). Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('zones', 'Zones of fixation fewer than two of three', {
      weight: 6,
      unit: 'count',
      free: [0, 0],
      reason: 'Solid fixation in two of three zones of each bone.',
      source: `Morgan-Jones 2015 (Bone Joint J 97-B:147), message from memory. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('cone', 'Metaphyseal cones', {
      weight: 2.5,
      unit: 'count',
      free: [0, 0],
      reason: 'Costs bone and is hard to remove.',
    }),
    weight('sleeve', 'Metaphyseal sleeves', {
      weight: 2.5,
      unit: 'count',
      free: [0, 0],
      reason: 'Costs bone, is hard to remove, and the canal dictates its rotation: as a cone.',
      source: `long-term aseptic loosening 0.4 % for sleeves and 4.1 % for cones, p 0.09, confounded (meta-analysis 2022): no difference is charged. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('stem', 'Stems', {
      weight: 1,
      unit: 'count',
      free: [0, 0],
      reason: 'A stem spares the metaphysis load, and is one more thing to remove.',
    }),
    weight('stem-fit', 'Stem narrower than the canal asks for', {
      weight: 0.4,
      unit: 'mm',
      free: [0, 0],
      reason: 'A press-fit stem that does not fill does not hold.',
      source: `canal fill beyond 0.7 in the femur and 0.85 in the tibia: BMC Musculoskelet Disord 2019, doi 10.1186/s12891-019-3030-1. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('stem-conflict', 'Tilt that a stem forces on its component, each view', {
      weight: 1.5,
      unit: 'deg',
      free: [0, 2],
      reason: 'A stem that meets the wall tilts its component: alignment and flexion gap go with it.',
      source: `femoral flexion of 0 to 3 degrees is customary, motion is best there (study of 113 knees); one degree is left to the saw. Weight: ${PLANNING_DEFAULT}`,
    }),
    weight('offset-coupler', 'Offset couplers', {
      weight: 0.6,
      unit: 'count',
      free: [0, 0],
      reason: 'A further junction, and length that the canal must take.',
    }),
  ],
};
