import type { Catalogue } from '../../catalogue/catalogue.ts';

/**
 * The catalogue with only those parts that are in the room: same limits, same tables of what joins what.
 *
 * @param refs references of the parts that are there; references of parts that the catalogue does not hold are ignored.
 * @returns a new catalogue, its lists in the order of the old one. Lists may be empty: then nothing can be built.
 */
export function restrictCatalogue(catalogue: Catalogue, refs: ReadonlySet<string>): Catalogue {
  const there = <T extends { readonly ref: string }>(parts: readonly T[]): T[] => parts.filter((p) => refs.has(p.ref));
  return {
    ...catalogue,
    femurs: there(catalogue.femurs),
    femoralAugments: there(catalogue.femoralAugments),
    trays: there(catalogue.trays),
    tibialAugments: there(catalogue.tibialAugments),
    inserts: there(catalogue.inserts),
    stems: there(catalogue.stems),
    offsetCouplers: there(catalogue.offsetCouplers),
    ...(catalogue.cones ? { cones: there(catalogue.cones) } : {}),
    ...(catalogue.sleeves ? { sleeves: there(catalogue.sleeves) } : {}),
    ...(catalogue.segments ? { segments: there(catalogue.segments) } : {}),
  };
}
