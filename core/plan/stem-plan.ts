import type { Catalogue, Stem } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import { type PartsOfConstruct, partsOf } from '../gaps/parts-of.ts';
import type { Reason, Warning } from '../measure/outcome.ts';
import type { CanalOfBone } from '../stems/canal-view.ts';
import { type Isthmus, narrowestIsthmus } from '../stems/canal-width.ts';
import { judgeStem, type StemSurroundings, type StemVerdict } from '../stems/judge-stem.ts';
import { bestFirst, type LongestOfDiameter, longestByDiameter, preferredFixation } from '../stems/rank-stems.ts';
import type { Missing } from './plan.ts';
import { type StemScene, tracedCanal } from './stem-plan-canals.ts';
import { flexionEffect, slopeEffect, type TiltEffect, tiltWords } from './stem-plan-gap.ts';
import { bossUnknown, stemWarnings, unknownOf } from './stem-plan-open.ts';
import { type CanalReading, readCanal } from './stem-plan-reading.ts';

/** The chosen stem with what its forced tilt does. */
export interface ChosenStemVerdict extends StemVerdict {
  /** Null = the tilt front to back is not known. */
  readonly gaps: TiltEffect | null;
  /** What its forced tilts do to component and gaps, in words; empty = nothing is forced. */
  readonly does: readonly string[];
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
  /** The best candidates of the catalogue: three of the fixation that the bone asks for, two of the other, each best first. */
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
  readonly warnings: readonly Warning[];
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

/** How many candidates are told in full: of the fixation that the bone asks for, and of the other. */
const CANDIDATES = { preferred: 3, other: 2 } as const;

function candidatesOf(verdicts: readonly StemVerdict[], prefers: Stem['fixation']): readonly StemVerdict[] {
  const sorted = bestFirst(verdicts, prefers);
  return [
    ...sorted.filter((v) => v.fixation === prefers).slice(0, CANDIDATES.preferred),
    ...sorted.filter((v) => v.fixation !== prefers).slice(0, CANDIDATES.other),
  ];
}

/** Stems of the catalogue that suit a bone. */
export const stemsFor = (catalogue: Catalogue, bone: Bone): readonly Stem[] =>
  catalogue.stems.filter((s) => s.bone === 'both' || s.bone === bone);

/**
 * What a bone's stems are judged in, and the traces that could not be used. With the parts of a construct its coupler under the
 * tray is the one that is told; a femoral one is set backwards (GAP-12), so there the nearest stays an offer.
 */
export function surroundingsOf(
  bone: Bone,
  scene: StemScene,
  catalogue: Catalogue,
  parts?: PartsOfConstruct,
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
    ...(parts && bone === 'tibia' ? { taken: parts.tibialOffset } : {}),
  };
  return { around, refused };
}

const isTraced = ({ canal }: StemSurroundings): boolean => canal.ap !== null || canal.lateral !== null;

interface Kept {
  readonly key: string;
  readonly verdicts: readonly StemVerdict[];
}

/** The newest verdicts of each bone, so that a change that moves no canal, as a drag of the insert, judges no stem anew. */
const newest = new WeakMap<Catalogue, Map<Bone, Kept>>();

function verdictsIn(around: StemSurroundings, catalogue: Catalogue): readonly StemVerdict[] {
  if (!isTraced(around)) return [];
  const { couplers: _ofTheCatalogue, ...asked } = around;
  const key = JSON.stringify(asked);
  const kept = newest.get(catalogue) ?? new Map<Bone, Kept>();
  newest.set(catalogue, kept);
  const { bone } = around.canal;
  const before = kept.get(bone);
  if (before?.key === key) return before.verdicts;
  const verdicts = stemsFor(catalogue, bone).map((stem) => judgeStem(stem, around));
  kept.set(bone, { key, verdicts });
  return verdicts;
}

/** Every stem of the catalogue for one bone in its measured canal. */
export function judgedBone(bone: Bone, scene: StemScene, catalogue: Catalogue): JudgedBone {
  const { around, refused } = surroundingsOf(bone, scene, catalogue);
  return { around, refused, verdicts: verdictsIn(around, catalogue) };
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
  const warnings = stemWarnings({ femur, tibia });
  return { expected: inputs.expected.seats.from, seats: scene.seats.from, femur, tibia, notKnown, warnings };
}

function stemsOf(bone: Bone, inputs: StemPlanInputs, parts: PartsOfConstruct | null): StemsOfBone {
  const { scene, catalogue } = inputs;
  const { verdicts, refused } = inputs.judged[bone];
  const { around } = parts ? surroundingsOf(bone, scene, catalogue, parts) : inputs.judged[bone];
  const stem = bone === 'femur' ? (parts?.femoralStem ?? null) : (parts?.tibialStem ?? null);
  const component = bone === 'femur' ? parts?.femur : parts?.tray;
  const sizeMm = component ? { ap: component.widthMm, lateral: component.apMm } : null;
  const readIn = { around, stem, sizeMm };
  const isthmus = narrowestIsthmus([around.canal.ap, around.canal.lateral]);
  const statedMm = (bone === 'femur' ? scene.file.bone?.femurCanalMm : scene.file.bone?.tibiaCanalMm) ?? null;
  const chosen = stem && isTraced(around) ? judgeStem(stem, around) : null;
  const gaps = chosen && gapsOf(bone, chosen.component.sagittalDeg, { ...inputs, parts });
  const count = (verdict: StemVerdict['verdict']) => verdicts.filter((v) => v.verdict === verdict).length;
  return {
    bone,
    ap: readCanal(around.canal.ap, readIn),
    lateral: readCanal(around.canal.lateral, readIn),
    refused,
    offered: isthmus && { ...isthmus, field: `bone.${bone}CanalMm`, statedMm },
    byDiameter: longestByDiameter(verdicts, stemsFor(catalogue, bone)),
    candidates: candidatesOf(verdicts, preferredFixation(scene.file.bone?.[`${bone}Quality`] ?? 'unknown')),
    chosen: chosen && { ...chosen, gaps, does: tiltWords(bone, chosen.component, gaps) },
    tried: { passes: count('passes'), fails: count('does-not-pass'), notKnown: count('not-known') },
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
