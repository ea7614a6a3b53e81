import type { BoneClass } from './bone-class.ts';

/** From least to most loss. */
export const BONE_CLASSES = ['1', '2A', '2B', '3'] as const satisfies readonly BoneClass[];

/** Where a class stands from 0 (type 1) to 3 (type 3): for "worse than". */
export const classRank = (boneClass: BoneClass): number => BONE_CLASSES.indexOf(boneClass);

/**
 * The class that a kit is planned for besides the film's (BONE-8): one worse. Type 3 stays type 3: nothing is worse.
 * Planning default, grade D: films understate loss, and no matrix of film against theatre is published.
 */
export const oneClassWorse = (boneClass: BoneClass): BoneClass => BONE_CLASSES[classRank(boneClass) + 1] ?? '3';
