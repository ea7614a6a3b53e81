import type { Side } from '@gapline/core/landmarks/side.ts';
import type { DataSet } from './dicom/data-set.ts';
import { TAG } from './dicom/tags.ts';
import { items, text } from './dicom/values.ts';

/** Where a film says which side it shows, in the order in which the places are asked (SIDE-1). */
export type LateralityPlace =
  | 'Image Laterality'
  | 'Frame Laterality'
  | 'Laterality of the series'
  | 'Modifier of the anatomic region'
  | 'Modifier of the primary structure';

/** What one place says; `both` for bilateral, `unclear` for anything that names no side. */
export interface LateralityStatement {
  readonly place: LateralityPlace;
  readonly says: Side | 'both' | 'unclear';
  /** As written in the file. */
  readonly written: string;
}

export type LateralityFacts = readonly LateralityStatement[];

/** Every statement of side in the file, in the order of SIDE-1; places left empty say nothing. */
export function lateralityFacts(set: DataSet): LateralityFacts {
  const frameGroups = [
    ...items(set, TAG.SharedFunctionalGroupsSequence),
    ...items(set, TAG.PerFrameFunctionalGroupsSequence).slice(0, 1),
  ];
  const frameAnatomy = frameGroups.flatMap((group) => items(group, TAG.FrameAnatomySequence));
  const regions = items(set, TAG.AnatomicRegionSequence);
  const structures = items(set, TAG.PrimaryAnatomicStructureSequence);
  return [
    ...written('Image Laterality', [text(set, TAG.ImageLaterality)]),
    ...written('Frame Laterality', [
      text(set, TAG.FrameLaterality),
      ...frameAnatomy.map((item) => text(item, TAG.FrameLaterality)),
    ]),
    ...written('Laterality of the series', [text(set, TAG.Laterality)]),
    ...written('Modifier of the anatomic region', modifiers(regions, TAG.AnatomicRegionModifierSequence)),
    ...written(
      'Modifier of the primary structure',
      modifiers(structures, TAG.PrimaryAnatomicStructureModifierSequence),
    ),
  ];
}

const modifiers = (regions: readonly DataSet[], tag: number) =>
  regions.flatMap((region) => items(region, tag).map((item) => text(item, TAG.CodeValue)));

const written = (place: LateralityPlace, values: readonly (string | undefined)[]): LateralityStatement[] =>
  values
    .filter((value) => value !== undefined)
    .map((value) => ({ place, written: value, says: SAYS[value.toUpperCase()] ?? 'unclear' }));

/** Defined terms of PS3.3, SNOMED CT codes of CID 244, and their older SRT forms. */
const SAYS: Readonly<Record<string, LateralityStatement['says']>> = {
  R: 'right',
  L: 'left',
  B: 'both',
  '24028007': 'right',
  '7771000': 'left',
  '51440002': 'both',
  'G-A100': 'right',
  'G-A101': 'left',
  'G-A102': 'both',
};

/** What a film says about its side, all places taken together. */
export type StatedSide =
  | { readonly kind: 'agree'; readonly side: Side | 'both'; readonly evidence: LateralityFacts }
  | { readonly kind: 'disagree'; readonly evidence: LateralityFacts }
  | { readonly kind: 'unknown'; readonly evidence: LateralityFacts };

/**
 * The side that a film states (SIDE-1, SIDE-2): agreed when every place that speaks says the same.
 * Never inferred from the direction of the columns or from the view.
 * Source: DICOM PS3.3 C.7.6.1.1.1 (laterality); the order and the demand that all agree are this project's.
 */
export function statedSide(laterality: LateralityFacts): StatedSide {
  const [first, ...others] = laterality;
  if (!first) return { kind: 'unknown', evidence: laterality };
  if (others.some((other) => other.says !== first.says)) return { kind: 'disagree', evidence: laterality };
  if (first.says === 'unclear') return { kind: 'unknown', evidence: laterality };
  return { kind: 'agree', side: first.says, evidence: laterality };
}
