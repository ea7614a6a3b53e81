import type { Catalogue } from './catalogue.ts';

/** Every part of a catalogue, kind after kind in the order of the catalogue; kinds that the system lacks give nothing. */
export function everyPart(catalogue: Catalogue) {
  return [
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
  ].flat();
}
