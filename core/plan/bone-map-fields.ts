import { DRAWN_SURFACES, FIXATIONS_IN_PLACE, FLARES, WEAK_SPOTS } from '../bone/bone-map.ts';
import { isListOf, isListWithIds, isNumber, isRecordOf, isText, isTrueOrFalse, isWord } from './accepts.ts';
import { type EditableField, number, oneOf, section, value } from './field-kinds.ts';

/** Bone stock of a case, by the names of core/bone/bone-map.ts. */
const truth = (label: string) => value(label, 'yes or no', isTrueOrFalse);
const percent = (label: string) => number(label, 0, 100, '%');
const attachment = (label: string) => oneOf(label, ['held', 'lost']);

const loss = (label: string) =>
  section(label, {
    depthMm: number(`${label}, depth`, 0, 80, 'mm'),
    depthSdMm: number(`${label}, spread of the depth`, 0, 30, 'mm'),
    unsupportedPct: percent(`${label}, share without support`),
    rim: oneOf(`${label}, rim`, ['intact', 'lost']),
    contained: truth(`${label}, contained`),
  });
const sides = (label: string) =>
  section(label, { medial: loss(`${label}, medial`), lateral: loss(`${label}, lateral`) });

const metaphysis = (bone: string) =>
  section(`${bone} metaphysis`, {
    flare: oneOf(`${bone} flare`, FLARES),
    cavityWidthMm: number(`${bone} cavity, width`, 0, 120, 'mm'),
    cavityApMm: number(`${bone} cavity, front to back`, 0, 120, 'mm'),
    cavityHeightMm: number(`${bone} cavity, height`, 0, 150, 'mm'),
    cavityFromPlaneMm: number(`${bone} cavity, from the resection plane`, 0, 150, 'mm'),
    wallMm: number(`${bone} cavity, thinnest wall`, 0, 40, 'mm'),
    hostContactPct: percent(`${bone} cavity, host bone`),
  });
const diaphysis = (bone: string) =>
  section(`${bone} shaft`, {
    weakSpots: value(
      `${bone} shaft, weak spots`,
      'a list of weak spots with kind and far end',
      isListOf(isRecordOf({ kind: isWord(WEAK_SPOTS), farEndMm: isNumber(0, 500) }), 20),
    ),
    outerDiameterMm: number(`${bone} shaft, outer diameter`, 10, 60, 'mm'),
    otherMetalMm: number(`${bone} shaft, other metal`, 0, 600, 'mm'),
  });

const isPoint = isRecordOf({ x: isNumber(-100_000, 100_000), y: isNumber(-100_000, 100_000) });

export const BONE_MAP_FIELDS: Readonly<Record<string, EditableField>> = {
  femurMap: section('Femoral bone stock', {
    distal: sides('Distal femur'),
    posterior: sides('Posterior femur'),
    anterior: loss('Anterior femur'),
    metaphysis: metaphysis('Femoral'),
    diaphysis: diaphysis('Femoral'),
    medialCollateral: attachment('Medial collateral, origin'),
    lateralCollateral: attachment('Lateral collateral, origin'),
    reachesEpicondyles: truth('Loss reaches the epicondyles'),
  }),
  tibiaMap: section('Tibial bone stock', {
    plateau: sides('Plateau'),
    metaphysis: metaphysis('Tibial'),
    diaphysis: diaphysis('Tibial'),
    medialCollateral: attachment('Medial collateral, insertion'),
    lateralCollateral: attachment('Lateral collateral, insertion'),
    patellarTendon: attachment('Patellar tendon, insertion'),
    reachesTubercle: truth('Loss reaches beyond the tubercle'),
  }),
  drawn: value(
    'Defects drawn on films',
    'a list of closed outlines',
    isListWithIds({
      film: isText(200),
      surface: isWord(DRAWN_SURFACES),
      compartment: isWord(['medial', 'lateral', 'both']),
      outline: (v) => isListOf(isPoint)(v) && (v as readonly unknown[]).length >= 3,
    }),
  ),
  femurFixation: oneOf('Femoral component, fixation', FIXATIONS_IN_PLACE),
  tibiaFixation: oneOf('Tibial component, fixation', FIXATIONS_IN_PLACE),
  removalEstimates: value(
    "Loss at removal, the practice's own estimates",
    'a list of estimates with least, likely and most loss',
    isListOf(
      isRecordOf(
        {
          fixation: isWord(FIXATIONS_IN_PLACE),
          surface: isWord(['femur-distal', 'femur-posterior', 'tibia']),
          leastMm: isNumber(0, 60),
          likelyMm: isNumber(0, 60),
          mostMm: isNumber(0, 60),
        },
        { classWorse: isNumber(0, 1) },
      ),
      40,
    ),
  ),
};
