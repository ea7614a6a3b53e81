import type {
  Catalogue,
  Cone,
  FemoralAugment,
  Femur,
  Insert,
  OffsetCoupler,
  Stem,
  TibialAugment,
  Tray,
} from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { Construct } from './construct.ts';

/** The parts that a construct names, looked up in its catalogue. */
export interface PartsOfConstruct {
  readonly femur: Femur;
  readonly distal: PerCompartment<FemoralAugment | null>;
  readonly posterior: PerCompartment<FemoralAugment | null>;
  readonly tray: Tray;
  readonly blocks: PerCompartment<TibialAugment | null>;
  readonly insert: Insert;
  readonly femoralStem: Stem | null;
  readonly femoralOffset: OffsetCoupler | null;
  readonly femoralCone: Cone | null;
  readonly tibialStem: Stem | null;
  readonly tibialCone: Cone | null;
}

function find<T extends { readonly ref: string }>(parts: readonly T[], ref: string): T {
  const part = parts.find((p) => p.ref === ref);
  if (!part) throw new Error(`The catalogue has no part ${ref}.`);
  return part;
}

const maybe = <T extends { readonly ref: string }>(parts: readonly T[], ref: string | null | undefined): T | null =>
  ref === null || ref === undefined ? null : find(parts, ref);

/** Looks up every part of a construct; a construct that names parts of another catalogue is a bug, not an outcome. */
export function partsOf(construct: Construct, catalogue: Catalogue): PartsOfConstruct {
  const both = <T extends { readonly ref: string }>(parts: readonly T[], refs: PerCompartment<string | null>) => ({
    medial: maybe(parts, refs.medial),
    lateral: maybe(parts, refs.lateral),
  });
  return {
    femur: find(catalogue.femurs, construct.femur),
    distal: both(catalogue.femoralAugments, construct.distalAugments),
    posterior: both(catalogue.femoralAugments, construct.posteriorAugments),
    tray: find(catalogue.trays, construct.tray),
    blocks: both(catalogue.tibialAugments, construct.tibialAugments),
    insert: find(catalogue.inserts, construct.insert),
    femoralStem: maybe(catalogue.stems, construct.femoralStem),
    femoralOffset: maybe(catalogue.offsetCouplers, construct.femoralOffset),
    femoralCone: maybe(catalogue.cones ?? [], construct.femoralCone),
    tibialStem: maybe(catalogue.stems, construct.tibialStem),
    tibialCone: maybe(catalogue.cones ?? [], construct.tibialCone),
  };
}
