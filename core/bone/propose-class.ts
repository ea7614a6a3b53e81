import type { BoneClass } from './bone-class.ts';

/** One condyle or plateau after virtual removal, at the planned resection plane. */
export interface DefectOfSide {
  /** Deepest loss below the plane, mm, >= 0. For a femur the deeper of distal and posterior. */
  readonly depthMm: number;
  /** Share of the surface without support, %, 0 to 100. */
  readonly unsupportedPct: number;
  /** The profile of the flare is shortened on this side; absent = it is not. */
  readonly flareShort?: boolean;
}

export interface DefectOfBone {
  readonly bone: 'femur' | 'tibia';
  readonly medial: DefectOfSide;
  readonly lateral: DefectOfSide;
  /** False where the flare is gone; a flare shortened on one side is that side's `flareShort`. */
  readonly flareIntact: boolean;
  /** A collateral's origin or insertion, or the patellar tendon's attachment, is lost. */
  readonly attachmentLost: boolean;
  /** Femur: the loss reaches the epicondyles. Tibia: it reaches distal to the tubercle. */
  readonly reachesLandmark: boolean;
}

export interface ProposedClass {
  readonly boneClass: BoneClass;
  readonly reasons: readonly string[];
}

/** Depth, mm, and unsupported share, %, beyond which a side wants rebuilding (BONE-1). */
export const REBUILD_DEPTH_MM = 5;
export const REBUILD_AREA_PCT = 40;
/** Share that counts as the major part of a condyle or plateau, % (BONE-2). */
export const MAJOR_AREA_PCT = 50;

/** Where the proposal comes from, in the short form shown beside it. */
export const CLASS_PROPOSAL_SOURCE =
  'meaning of the classes: Engh; 5 mm and 40 %: algorithm in Rosso 2019; predicate: proposal of this project, grade D';

/**
 * Proposes the class of bone loss of one bone from measured defects (BONE-1, BONE-2); the first rule that holds wins.
 * Type 3: an attachment is lost, the landmark is reached, or the flare is gone with more than half of a condyle or
 * plateau unsupported. Otherwise 2B, 2A or 1 by the number of sides that want rebuilding: deeper than 5 mm, more
 * than 40 % unsupported, or with the flare's profile shortened there (gone = on both sides).
 *
 * The class is confirmed in theatre only: plain films agree with it no better than fairly (Brenneis 2023, KSSTA).
 * Sources: meaning of the classes and the shortened profile, Engh; 5 mm and 40 %, treatment algorithm in Rosso 2019, not
 * part of the class; the predicate itself is a proposal, grade D. Ligament loss is sufficient, not necessary, for type 3.
 *
 * Example: 7 mm deep on one side only, flare intact, is 2A.
 */
export function proposeBoneClass(defect: DefectOfBone): ProposedClass {
  const three = reasonsForThree(defect);
  if (three.length > 0) return { boneClass: '3', reasons: three };
  const drives = (['medial', 'lateral'] as const)
    .map((side) => ({ side, why: rebuildingWanted(defect[side], defect.flareIntact) }))
    .filter(({ why }) => why.length > 0);
  const reasons = drives.map(({ side, why }) => `the ${side} side wants rebuilding: ${why.join(', ')}`);
  if (drives.length === 2) return { boneClass: '2B', reasons };
  if (drives.length === 1) return { boneClass: '2A', reasons };
  return { boneClass: '1', reasons: ['neither side wants rebuilding'] };
}

function reasonsForThree(defect: DefectOfBone): readonly string[] {
  const three: string[] = [];
  if (defect.attachmentLost) three.push('an attachment of a ligament or of the patellar tendon is lost');
  if (defect.reachesLandmark)
    three.push(defect.bone === 'femur' ? 'the loss reaches the epicondyles' : 'the loss reaches beyond the tubercle');
  if (!defect.flareIntact && [defect.medial, defect.lateral].some((s) => s.unsupportedPct > MAJOR_AREA_PCT))
    three.push('the flare is gone and more than half of one side is unsupported');
  return three;
}

function rebuildingWanted(side: DefectOfSide, flareIntact: boolean): readonly string[] {
  const why: string[] = [];
  if (side.depthMm > REBUILD_DEPTH_MM) why.push(`${side.depthMm.toFixed(0)} mm deep, over ${REBUILD_DEPTH_MM}`);
  if (side.unsupportedPct > REBUILD_AREA_PCT)
    why.push(`${side.unsupportedPct.toFixed(0)} % unsupported, over ${REBUILD_AREA_PCT}`);
  if (!flareIntact) why.push('the flare is gone');
  else if (side.flareShort) why.push('the flare is shortened');
  return why;
}
