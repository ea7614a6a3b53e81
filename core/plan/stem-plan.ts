import type { Catalogue, Stem } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import { type PartsOfConstruct, partsOf } from '../gaps/parts-of.ts';
import type { Reason } from '../measure/outcome.ts';
import { type CanalAxis, canalAxisAt } from '../stems/canal-axis.ts';
import { type CanalBow, canalBow } from '../stems/canal-bow.ts';
import type { CanalInView, CanalOfBone } from '../stems/canal-view.ts';
import { type CanalWidth, canalWidths, type Isthmus, narrowestIsthmus } from '../stems/canal-width.ts';
import { firstContact } from '../stems/first-contact.ts';
import { judgeStem, type StemSurroundings, type StemVerdict } from '../stems/judge-stem.ts';
import { bestFirst, type LongestOfDiameter, longestByDiameter } from '../stems/rank-stems.ts';
import type { Missing } from './plan.ts';
import { type StemScene, tracedCanal } from './stem-plan-canals.ts';
import { flexionEffect, slopeEffect, type TiltEffect } from './stem-plan-gap.ts';
import type { StemSeats } from './stem-plan-seats.ts';

/** One view of a canal, read. */
export interface CanalReading {
  readonly film: string;
  readonly widths: readonly CanalWidth[];
  /** Null with fewer than five levels. */
  readonly bow: CanalBow | null;
  /** The canal's own axis where the stem begins, against the middle of the component. */
  readonly axis: CanalAxis | null;
  /** Where a straight stem as thick as the proposed one, held without offset or tilt, first meets a wall, mm from its seat. */
  readonly heldMeets: { readonly fromSeatMm: number; readonly wall: 'low' | 'high' } | null;
}

/** The chosen stem with what its forced tilt does. */
export interface ChosenStemVerdict extends StemVerdict {
  /** Null = the tilt front to back is not known. */
  readonly gaps: TiltEffect | null;
}

/** Stems of one bone. */
export interface StemsOfBone {
  readonly bone: 'femur' | 'tibia';
  readonly ap: CanalReading | null;
  readonly lateral: CanalReading | null;
  /** Traces that could not be used. */
  readonly refused: readonly Reason[];
  /** Narrowest place, offered as the bone's canal; never written over what is stated. */
  readonly offered: (Isthmus & { readonly field: string; readonly statedMm: number | null }) | null;
  readonly byDiameter: readonly LongestOfDiameter[];
  /** The best candidates of the catalogue, best first. */
  readonly candidates: readonly StemVerdict[];
  /** The stem of the proposed construct where it would lie. */
  readonly chosen: ChosenStemVerdict | null;
  /** How many stems of the catalogue pass, do not pass, cannot be judged. */
  readonly tried: { readonly passes: number; readonly fails: number; readonly notKnown: number };
}

export interface StemPlan {
  /** From which parts the seats are: those of the catalogue's stems as tried, and those of the proposed ones. */
  readonly expected: string;
  readonly seats: string;
  readonly femur: StemsOfBone;
  readonly tibia: StemsOfBone;
  readonly notKnown: readonly Missing[];
}

type Bone = CanalOfBone['bone'];

/** The stems of the catalogue for one bone, judged before any construct is chosen. */
export interface JudgedBone {
  readonly around: StemSurroundings;
  readonly refused: readonly Reason[];
  /** In the catalogue's order; empty while nothing is traced. */
  readonly verdicts: readonly StemVerdict[];
}

export interface StemPlanInputs {
  readonly judged: Readonly<Record<Bone, JudgedBone>>;
  /** Stems where they are expected and, with a construct, where its own would lie. */
  readonly expected: StemScene;
  readonly scene: StemScene;
  readonly catalogue: Catalogue;
  readonly state: BoneState | null;
  readonly construct: Construct | null;
}

/** How many candidates are told in full. */
const CANDIDATES = 5;

/** Stems of the catalogue that suit a bone. */
export const stemsFor = (catalogue: Catalogue, bone: Bone): readonly Stem[] =>
  catalogue.stems.filter((s) => s.bone === 'both' || s.bone === bone);

/** What a bone's stems are judged in, and the traces that could not be used. */
export function surroundingsOf(
  bone: Bone,
  scene: StemScene,
  catalogue: Catalogue,
): { readonly around: StemSurroundings; readonly refused: readonly Reason[] } {
  const { canal, refused } = tracedCanal(bone, scene);
  const { seats, file } = scene;
  const behind = seats.femur.behindFlangeMm;
  const around: StemSurroundings = {
    side: file.side,
    canal,
    seatMm: seats[bone].seatMm,
    // Across from the side: a femur counts from the anterior cortex, a tibia from the middle of the tray.
    bossMm: { ap: 0, lateral: bone === 'tibia' ? 0 : behind === null ? null : -behind },
    shaft: scene.maps[bone].diaphysis ?? {},
    couplers: catalogue.offsetCouplers,
  };
  return { around, refused };
}

const isTraced = ({ canal }: StemSurroundings): boolean => canal.ap !== null || canal.lateral !== null;

/** Every stem of the catalogue for one bone in its measured canal. */
export function judgedBone(bone: Bone, scene: StemScene, catalogue: Catalogue): JudgedBone {
  const { around, refused } = surroundingsOf(bone, scene, catalogue);
  const verdicts = isTraced(around) ? stemsFor(catalogue, bone).map((stem) => judgeStem(stem, around)) : [];
  return { around, refused, verdicts };
}

/**
 * The stems of both bones (STM-4 to STM-15): the canals as measured, which stems of the catalogue pass and how, the proposed stem where it would
 * lie with the tilt that it forces on its component and what that does to the gaps, and what is not known.
 */
export function stemPlan(inputs: StemPlanInputs): StemPlan {
  const { scene, catalogue, construct } = inputs;
  const parts = construct ? partsOf(construct, catalogue) : null;
  const femur = stemsOf('femur', inputs, parts);
  const tibia = stemsOf('tibia', inputs, parts);
  const notKnown = [...unknownOf(femur), ...unknownOf(tibia), ...bossUnknown(scene.seats)];
  return { expected: inputs.expected.seats.from, seats: scene.seats.from, femur, tibia, notKnown };
}

function stemsOf(bone: Bone, inputs: StemPlanInputs, parts: PartsOfConstruct | null): StemsOfBone {
  const { scene, catalogue } = inputs;
  const { verdicts, refused } = inputs.judged[bone];
  const { around } = parts ? surroundingsOf(bone, scene, catalogue) : inputs.judged[bone];
  const stem = bone === 'femur' ? (parts?.femoralStem ?? null) : (parts?.tibialStem ?? null);
  const isthmus = narrowestIsthmus([around.canal.ap, around.canal.lateral]);
  const statedMm = (bone === 'femur' ? scene.file.bone?.femurCanalMm : scene.file.bone?.tibiaCanalMm) ?? null;
  const chosen = stem && isTraced(around) ? judgeStem(stem, around) : null;
  const count = (verdict: StemVerdict['verdict']) => verdicts.filter((v) => v.verdict === verdict).length;
  return {
    bone,
    ap: reading(around.canal.ap, { around, stem }),
    lateral: reading(around.canal.lateral, { around, stem }),
    refused,
    offered: isthmus && { ...isthmus, field: `bone.${bone}CanalMm`, statedMm },
    byDiameter: longestByDiameter(verdicts, stemsFor(catalogue, bone)),
    candidates: bestFirst(verdicts).slice(0, CANDIDATES),
    chosen: chosen && { ...chosen, gaps: gapsOf(bone, chosen.component.sagittalDeg, { ...inputs, parts }) },
    tried: { passes: count('passes'), fails: count('does-not-pass'), notKnown: count('not-known') },
  };
}

function reading(
  canal: CanalInView | null,
  { around, stem }: { readonly around: StemSurroundings; readonly stem: Stem | null },
): CanalReading | null {
  if (!canal) return null;
  const { seatMm } = around;
  const bow = canalBow(canal);
  const boss = around.bossMm[canal.view];
  const axis = canalAxisAt(canal, seatMm);
  const post = stem && boss !== null ? { diameterMm: stem.diameterMm, seatMm, acrossMm: boss, tiltDeg: 0 } : null;
  const met = post && firstContact(canal.sections, post);
  return {
    film: canal.film,
    widths: canalWidths(canal),
    bow: bow.ok ? bow.value : null,
    axis: axis && boss !== null ? { ...axis, acrossMm: axis.acrossMm - boss } : null,
    heldMeets:
      met && met.zMm <= seatMm + (stem?.lengthMm ?? 0) ? { fromSeatMm: met.zMm - seatMm, wall: met.wall } : null,
  };
}

/** What the tilt front to back does to the gaps; null where it is not known. */
function gapsOf(
  bone: Bone,
  tiltDeg: number | null,
  inputs: StemPlanInputs & { readonly parts: PartsOfConstruct | null },
): TiltEffect | null {
  if (tiltDeg === null || !inputs.parts) return null;
  if (bone === 'femur') return flexionEffect(inputs.parts.femur, tiltDeg);
  const behindMm = inputs.state?.flexionContactBehindMm;
  return behindMm === undefined
    ? null
    : slopeEffect(tiltDeg, { slopeDeg: inputs.scene.seats.tibia.slopeDeg, behindMm });
}

const VIEW_OPEN = {
  ap: 'whether a stem passes from in front, its tilt into varus or valgus, the offset to either side',
  lateral: 'whether a stem passes the bow, the flexion or slope that it forces, the offset front to back',
} as const;
const VIEW_NAME = { ap: 'from in front', lateral: 'from the side' } as const;

/** Views that are not traced: one line a bone. */
function unknownOf(stems: StemsOfBone): readonly Missing[] {
  const open = (['ap', 'lateral'] as const).filter((view) => !stems[view]);
  if (open.length === 0) return [];
  const changes = open.map((view) => VIEW_OPEN[view]).join('; ');
  return [
    {
      what: `Canal of the ${stems.bone} ${open.map((view) => VIEW_NAME[view]).join(' and ')}`,
      field: 'canals',
      wouldChange: `${changes.charAt(0).toUpperCase()}${changes.slice(1)}.`,
    },
  ];
}

const bossUnknown = ({ femur }: StemSeats): readonly Missing[] =>
  femur.behindFlangeMm === null
    ? [
        {
          what: 'Where the femoral component holds its stem, front to back',
          field: 'catalogue.femurs.stemBehindFlangeMm',
          wouldChange: 'Size and direction of the femoral offset; its part to either side is given.',
        },
      ]
    : [];
