import { CEMENT_MANTLE_MM, PRESS_FIT_PLAY_MM } from '../stems/choose-stem.ts';
import { shapeOf } from './arc.ts';
import { shapeIsKnown } from './arc-shape.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct, UnknownTerm } from './construct.ts';
import type { PartsOfConstruct } from './parts-of.ts';
import { boneFacts, stemLimit } from './stem-limits.ts';

interface Asked {
  readonly construct: Construct;
  readonly parts: PartsOfConstruct;
  readonly state: BoneState;
}

function ofTheArc({ construct, parts, state }: Asked): UnknownTerm[] {
  if (!state.targetOutline || state.targetOutline.length === 0)
    return [
      {
        id: 'arc-outline',
        label: 'Sagittal outline that the femur should have',
        because: 'It is not known: between 0 and 90 degrees only what the construct moves is charged.',
        mend: 'Mark the condylar outline on the lateral film of the other knee.',
      },
    ];
  return shapeIsKnown(shapeOf({ state, construct, femur: parts.femur }))
    ? []
    : [
        {
          id: 'arc-outline',
          label: 'Sagittal outline of the femoral component',
          because: 'The catalogue does not hold it: between 0 and 90 degrees only what the construct moves is charged.',
          mend: 'Give the outline of the component in the catalogue.',
        },
      ];
}

function ofTheStem({ parts, state }: Asked, bone: 'femur' | 'tibia'): UnknownTerm[] {
  const stem = bone === 'femur' ? parts.femoralStem : parts.tibialStem;
  if (!stem) return [];
  const found: UnknownTerm[] = [];
  const adjective = bone === 'femur' ? 'femoral' : 'tibial';
  if (boneFacts(state, bone).canalMm === null)
    found.push({
      id: 'stem-fit',
      label: `Fit of the ${adjective} stem`,
      because: 'The inner width of the canal was not measured: the stem named is the thinnest, as a place holder.',
      mend: `Measure the canal: press-fit stems take it less ${PRESS_FIT_PLAY_MM} mm, cemented ones less ${2 * CEMENT_MANTLE_MM} mm.`,
    });
  const tilt = stemLimit(state, bone, stem.ref)?.forcedTiltDeg;
  if (!tilt || tilt.coronal === null || tilt.sagittal === null)
    found.push({
      id: 'stem-conflict',
      label: `Tilt that the ${adjective} stem forces`,
      because: 'The walls of the canal are not known in both views, so neither is whether a straight stem meets them.',
      mend: 'Mark the walls of the canal on the films of both views.',
    });
  return found;
}

function ofTheMetaphysis({ parts, state }: Asked, bone: 'femur' | 'tibia'): UnknownTerm[] {
  const found: UnknownTerm[] = [];
  const part = bone === 'femur' ? (parts.femoralCone ?? parts.femoralSleeve) : (parts.tibialCone ?? parts.tibialSleeve);
  if (part && !(bone === 'femur' ? state.femurCavity : state.tibiaCavity))
    found.push({
      id: 'cavity',
      label: `Fit of ${part.name} in its cavity`,
      because: 'The cavity of the metaphysis was not measured: the narrowest that goes with the size is named.',
      mend: 'Measure width and depth of the cavity on both views.',
    });
  const { quality, boneClass } = boneFacts(state, bone);
  const replaced = bone === 'femur' ? parts.femoralSegment : parts.tibialSegment;
  if (!replaced && quality === 'unknown' && (boneClass === '1' || boneClass === '2A'))
    found.push({
      id: 'zones',
      label: `Fixation of the ${bone} at its joint surface`,
      because: 'The quality of the bone is not known, so zone 1 counts neither as solid nor as lost.',
      mend: 'Enter good, sclerotic or osteoporotic.',
    });
  return found;
}

/** Where the tray stands on its stem, and so whether a coupler is wanted (GAP-33). */
function ofTheTray({ parts, state }: Asked): UnknownTerm[] {
  const stem = parts.tibialStem;
  if (!stem || parts.tibialSegment) return [];
  const needed = stemLimit(state, 'tibia', stem.ref)?.offset;
  if (!needed)
    return [
      {
        id: 'tray-place',
        label: 'Where the tibial stem sets the tray',
        because:
          'Canal and edges of the tibia are not both marked from in front: overhang is told as if the tray stood over the middle, and no offset coupler can be judged.',
        mend: 'Mark the walls of the canal and both edges of the tibia on one film from in front.',
      },
    ];
  return needed.anteriorMm === null
    ? [
        {
          id: 'tray-place',
          label: 'Where the tibial stem sets the tray, front to back',
          because:
            'The canal is not known from the side: the offset to either side alone decides whether a coupler is taken.',
          mend: 'Mark the walls of the canal on a film from the side.',
        },
      ]
    : [];
}

/** Terms that cannot be charged because a value was not measured, with what would settle each (GAP-19). */
export function notKnown(asked: Asked): readonly UnknownTerm[] {
  return [
    ...ofTheArc(asked),
    ...(['femur', 'tibia'] as const).flatMap((bone) => [...ofTheStem(asked, bone), ...ofTheMetaphysis(asked, bone)]),
    ...ofTheTray(asked),
  ];
}
