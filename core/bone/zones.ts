import type { BoneClass, BoneQuality } from './bone-class.ts';

/** What gives fixation in one bone. */
export interface FixationOfBone {
  readonly boneClass: BoneClass;
  readonly quality: BoneQuality | 'unknown';
  readonly stem: boolean;
  readonly cone: boolean;
  /** A sleeve counts like a cone; absent = none. */
  readonly sleeve?: boolean;
}

export type Zone = 1 | 2 | 3;

export interface ZoneCount {
  /** Zones that count as solid: 1 joint surface, 2 metaphysis, 3 shaft. */
  readonly solid: readonly Zone[];
  /** Zones that cannot be judged because the quality of the bone is not known. */
  readonly unknown: readonly Zone[];
}

/**
 * Zones of fixation that a bone has with the chosen parts (BONE-3).
 *
 * Zone 1 (joint surface) is solid where the class is 1 or 2A and the bone is of good quality; zone 2 (metaphysis)
 * where the metaphysis is intact (class 1) or a cone or sleeve is used; zone 3 (shaft) where a stem is used.
 * Unknown quality leaves zone 1 unknown: neither solid nor lost.
 *
 * Source: the three zones and "two of three" are Morgan-Jones 2015 (Bone Joint J 97-B:147, from memory); what makes
 * a zone solid is this project's proposal, grade D.
 */
export function zonesOfFixation({ boneClass, quality, stem, cone, sleeve = false }: FixationOfBone): ZoneCount {
  const solid: Zone[] = [];
  const unknown: Zone[] = [];
  if (boneClass === '1' || boneClass === '2A') {
    if (quality === 'good') solid.push(1);
    if (quality === 'unknown') unknown.push(1);
  }
  if (cone || sleeve || boneClass === '1') solid.push(2);
  if (stem) solid.push(3);
  return { solid, unknown };
}

/** Zones wanted in each bone that carries a revised component (BONE-4). */
export const ZONES_WANTED = 2;

/** Classes in which two solid zones are a hard limit rather than a wish: both sides or a major part lost (BONE-4). */
export const zonesAreDemanded = (boneClass: BoneClass): boolean => boneClass === '2B' || boneClass === '3';
