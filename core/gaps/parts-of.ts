import type {
  Catalogue,
  Cone,
  FemoralAugment,
  Femur,
  Insert,
  OffsetCoupler,
  Segment,
  Sleeve,
  Stem,
  TibialAugment,
  Tray,
} from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { Construct } from './construct.ts';
import { femurOfSegment, trayOfSegment } from './segment.ts';

/** The parts that a construct names, looked up in its catalogue. */
export interface PartsOfConstruct {
  /** A distal femoral component stands here as a femur as thick as it is long. */
  readonly femur: Femur;
  readonly femoralSegment: Segment | null;
  readonly distal: PerCompartment<FemoralAugment | null>;
  readonly posterior: PerCompartment<FemoralAugment | null>;
  /** A proximal tibial component stands here as a tray as thick as it is long. */
  readonly tray: Tray;
  readonly tibialSegment: Segment | null;
  readonly blocks: PerCompartment<TibialAugment | null>;
  readonly insert: Insert;
  readonly femoralStem: Stem | null;
  readonly femoralOffset: OffsetCoupler | null;
  readonly femoralCone: Cone | null;
  readonly femoralSleeve: Sleeve | null;
  readonly tibialStem: Stem | null;
  readonly tibialOffset: OffsetCoupler | null;
  readonly tibialCone: Cone | null;
  readonly tibialSleeve: Sleeve | null;
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
  const segment = (ref: string, lengthMm: number | null | undefined): Segment | null =>
    typeof lengthMm === 'number' ? find(catalogue.segments ?? [], ref) : null;
  const femoralSegment = segment(construct.femur, construct.femoralSegmentMm);
  const tibialSegment = segment(construct.tray, construct.tibialSegmentMm);
  return {
    femur: femoralSegment
      ? femurOfSegment(femoralSegment, construct.femoralSegmentMm ?? femoralSegment.replacesMm)
      : find(catalogue.femurs, construct.femur),
    femoralSegment,
    distal: both(catalogue.femoralAugments, construct.distalAugments),
    posterior: both(catalogue.femoralAugments, construct.posteriorAugments),
    tray: tibialSegment
      ? trayOfSegment(tibialSegment, construct.tibialSegmentMm ?? tibialSegment.replacesMm)
      : find(catalogue.trays, construct.tray),
    tibialSegment,
    blocks: both(catalogue.tibialAugments, construct.tibialAugments),
    insert: find(catalogue.inserts, construct.insert),
    femoralStem: maybe(catalogue.stems, construct.femoralStem),
    femoralOffset: maybe(catalogue.offsetCouplers, construct.femoralOffset),
    femoralCone: maybe(catalogue.cones ?? [], construct.femoralCone),
    femoralSleeve: maybe(catalogue.sleeves ?? [], construct.femoralSleeve),
    tibialStem: maybe(catalogue.stems, construct.tibialStem),
    tibialOffset: maybe(catalogue.offsetCouplers, construct.tibialOffset),
    tibialCone: maybe(catalogue.cones ?? [], construct.tibialCone),
    tibialSleeve: maybe(catalogue.sleeves ?? [], construct.tibialSleeve),
  };
}
