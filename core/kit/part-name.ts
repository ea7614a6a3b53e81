import type { Catalogue } from '../catalogue/catalogue.ts';

/** A part's name as the catalogue has it, beginning small so that it stands within a sentence; its reference where it has none. */
export function partName(catalogue: Catalogue, ref: string): string {
  const lists: readonly (readonly { readonly ref: string; readonly name: string }[])[] = [
    catalogue.femurs,
    catalogue.femoralAugments,
    catalogue.trays,
    catalogue.tibialAugments,
    catalogue.inserts,
    catalogue.stems,
    catalogue.offsetCouplers,
    catalogue.cones ?? [],
    catalogue.sleeves ?? [],
    catalogue.segments ?? [],
  ];
  for (const parts of lists) {
    const name = parts.find((p) => p.ref === ref)?.name;
    if (name) return name.charAt(0).toLowerCase() + name.slice(1);
  }
  return ref;
}
