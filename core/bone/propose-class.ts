import type { BoneClass } from './bone-class.ts';

/** One condyle or plateau after virtual removal, at the planned resection plane. */
export interface DefectOfSide {
  /** Deepest loss below the plane, mm, >= 0. For a femur the deeper of distal and posterior. */
  readonly depthMm: number;
  /** Share of the surface without support, %, 0 to 100. */
  readonly unsupportedPct: number;
}

export interface DefectOfBone {
  readonly bone: 'femur' | 'tibia';
  readonly medial: DefectOfSide;
  readonly lateral: DefectOfSide;
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
const MAJOR_AREA_PCT = 50;

const needsRebuild = (side: DefectOfSide): boolean =>
  side.depthMm > REBUILD_DEPTH_MM || side.unsupportedPct > REBUILD_AREA_PCT;

/**
 * Proposes the class of bone loss of one bone from measured defects (BONE-1, BONE-2); the first rule that holds wins.
 * Type 3: an attachment is lost, the landmark is reached, or the flare is gone with more than half of a condyle or
 * plateau unsupported. Otherwise 2B, 2A or 1 by the number of sides that want rebuilding (deeper than 5 mm or more
 * than 40 % unsupported).
 *
 * The class is confirmed in theatre only: plain films agree with it no better than fairly (Brenneis 2023, KSSTA).
 * Sources: meaning of the classes, Engh; 5 mm and 40 %, treatment algorithm in Rosso 2019, not part of the class;
 * the predicate itself is a proposal, grade D. Ligament loss is sufficient, not necessary, for type 3.
 *
 * Example: 7 mm deep on one side only, flare intact, is 2A.
 */
export function proposeBoneClass(defect: DefectOfBone): ProposedClass {
  const sides = [defect.medial, defect.lateral];
  const three: string[] = [];
  if (defect.attachmentLost) three.push('an attachment of a ligament or of the patellar tendon is lost');
  if (defect.reachesLandmark)
    three.push(defect.bone === 'femur' ? 'the loss reaches the epicondyles' : 'the loss reaches beyond the tubercle');
  if (!defect.flareIntact && sides.some((s) => s.unsupportedPct > MAJOR_AREA_PCT))
    three.push('the flare is gone and more than half of one side is unsupported');
  if (three.length > 0) return { boneClass: '3', reasons: three };

  const rebuild = (['medial', 'lateral'] as const).filter((side) => needsRebuild(defect[side]));
  const reasons = rebuild.map((side) => `the ${side} side wants rebuilding: over 5 mm deep or over 40 % unsupported`);
  if (rebuild.length === 2) return { boneClass: '2B', reasons };
  if (rebuild.length === 1) return { boneClass: '2A', reasons };
  return { boneClass: '1', reasons: ['neither side wants rebuilding'] };
}
