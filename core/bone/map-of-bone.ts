import type { Compartment } from '../landmarks/side.ts';
import type { Attachment, FemurMap, MetaphysisMap, SurfaceLoss, TibiaMap } from './bone-map.ts';

/** The map of one bone, told apart by the bone. */
export type MapOfBone =
  | { readonly bone: 'femur'; readonly map: FemurMap }
  | { readonly bone: 'tibia'; readonly map: TibiaMap };

/** One surface of one side as the map holds it; `field` is its path in the case. */
export interface MappedSurface {
  readonly surface: 'distal' | 'posterior' | 'anterior' | 'plateau';
  readonly label: string;
  readonly field: string;
  readonly loss: SurfaceLoss;
}

/** A yes-or-no of the map; absent `lost` = not known. */
export interface MappedAttachment {
  readonly label: 'medial collateral' | 'lateral collateral' | 'patellar tendon';
  readonly field: string;
  readonly state: Attachment | undefined;
}

export const SIDES = ['medial', 'lateral'] as const satisfies readonly Compartment[];

/** Path of the map in a case file. */
export const mapField = (bone: MapOfBone['bone']): string => `bone.${bone}Map`;

/** Surfaces that bear a component on one side: distal and posterior condyle, or the plateau. */
export function surfacesOf({ bone, map }: MapOfBone, side: Compartment): readonly MappedSurface[] {
  const at = (group: MappedSurface['surface'], label: string, loss: SurfaceLoss | undefined): MappedSurface => ({
    surface: group,
    label: `${side} ${label}`,
    field: `${mapField(bone)}.${group}.${side}`,
    loss: loss ?? {},
  });
  return bone === 'femur'
    ? [at('distal', 'distal femur', map.distal?.[side]), at('posterior', 'posterior femur', map.posterior?.[side])]
    : [at('plateau', 'plateau', map.plateau?.[side])];
}

/** What holds ligaments and tendon to this bone. */
export function attachmentsOf({ bone, map }: MapOfBone): readonly MappedAttachment[] {
  const at = (name: string, label: MappedAttachment['label'], state: Attachment | undefined): MappedAttachment => ({
    label,
    field: `${mapField(bone)}.${name}`,
    state,
  });
  const collaterals = [
    at('medialCollateral', 'medial collateral', map.medialCollateral),
    at('lateralCollateral', 'lateral collateral', map.lateralCollateral),
  ];
  return bone === 'femur' ? collaterals : [...collaterals, at('patellarTendon', 'patellar tendon', map.patellarTendon)];
}

/** Whether the loss reaches the epicondyles, or beyond the tubercle. */
export const landmarkOf = ({ bone, map }: MapOfBone) =>
  bone === 'femur'
    ? { label: 'the epicondyles', field: `${mapField(bone)}.reachesEpicondyles`, reached: map.reachesEpicondyles }
    : { label: 'beyond the tubercle', field: `${mapField(bone)}.reachesTubercle`, reached: map.reachesTubercle };

export const metaphysisOf = ({ map }: MapOfBone): MetaphysisMap => map.metaphysis ?? {};

/** Largest known value of the side's surfaces, and whether one of them is not known. */
export function worstOf(
  surfaces: readonly MappedSurface[],
  field: 'depthMm' | 'unsupportedPct',
): { readonly known: number; readonly unknown: readonly MappedSurface[] } {
  return {
    known: surfaces.reduce((most, s) => Math.max(most, s.loss[field] ?? 0), 0),
    unknown: surfaces.filter((s) => s.loss[field] === undefined),
  };
}
