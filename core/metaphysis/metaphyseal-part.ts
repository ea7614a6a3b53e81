import type { Catalogue, Cone, Sleeve } from '../catalogue/catalogue.ts';

/** A cone or a sleeve, told apart. */
export type MetaphysealPart =
  | { readonly kind: 'cone'; readonly part: Cone }
  | { readonly kind: 'sleeve'; readonly part: Sleeve };

/** Cones and sleeves of a catalogue for one bone, in the catalogue's order, cones first. */
export const partsFor = (catalogue: Catalogue, bone: 'femur' | 'tibia'): readonly MetaphysealPart[] => [
  ...(catalogue.cones ?? []).filter((c) => c.bone === bone).map((part) => ({ kind: 'cone', part }) as const),
  ...(catalogue.sleeves ?? []).filter((s) => s.bone === bone).map((part) => ({ kind: 'sleeve', part }) as const),
];
