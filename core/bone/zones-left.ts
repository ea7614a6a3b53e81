import type { BoneClass, BoneQuality } from './bone-class.ts';
import type { MapOfBone } from './map-of-bone.ts';
import { metaphysisOf } from './map-of-bone.ts';
import type { Zone } from './zones.ts';

/** What one zone still offers before any part is chosen. */
export interface ZoneLeft {
  readonly zone: Zone;
  readonly name: 'joint surface' | 'metaphysis' | 'shaft';
  /** `holds` by itself; `with-a-part`: a cone or sleeve, or a stem, makes it hold; `lost`; `not-known`. */
  readonly left: 'holds' | 'with-a-part' | 'lost' | 'not-known';
  readonly why: string;
}

export interface ZonesAsked {
  readonly boneClass: BoneClass | null;
  readonly quality: BoneQuality | 'unknown';
  readonly map: MapOfBone;
  /** Inner width of the canal, mm; null = not measured. */
  readonly canalMm: number | null;
}

/**
 * Zones of fixation that remain in one bone before any part is chosen (BONE-3): the same predicate as `zonesOfFixation`, told zone by
 * zone with its reason. A class that is not stated leaves zones 1 and 2 not known. `boneClass` is the surgeon's, or null.
 * Source: as there; zones Morgan-Jones 2015, from memory; what counts as solid: proposal, grade D.
 */
export function zonesLeft(asked: ZonesAsked): readonly ZoneLeft[] {
  return [
    { zone: 1, name: 'joint surface', ...jointSurface(asked) },
    { zone: 2, name: 'metaphysis', ...metaphysis(asked) },
    { zone: 3, name: 'shaft', ...shaft(asked) },
  ];
}

type Left = Pick<ZoneLeft, 'left' | 'why'>;

const NO_CLASS: Left = { left: 'not-known', why: 'the class of bone loss is not stated' };

function jointSurface({ boneClass, quality }: ZonesAsked): Left {
  if (boneClass === null) return NO_CLASS;
  if (boneClass === '2B' || boneClass === '3') return { left: 'lost', why: `bone loss of type ${boneClass}` };
  if (quality === 'unknown') return { left: 'not-known', why: 'the quality of the bone is not stated' };
  return quality === 'good'
    ? { left: 'holds', why: `type ${boneClass} in good bone` }
    : { left: 'lost', why: `${quality} bone holds no cement at the joint surface` };
}

function metaphysis({ boneClass, map }: ZonesAsked): Left {
  if (boneClass === null) return NO_CLASS;
  if (boneClass === '1') return { left: 'holds', why: 'metaphysis intact' };
  const { hostContactPct, flare } = metaphysisOf(map);
  const contact = hostContactPct === undefined ? 'host contact not known' : `${hostContactPct} % host contact`;
  const gone = flare === 'absent' ? 'flare gone; ' : '';
  return { left: 'with-a-part', why: `${gone}holds with a cone or sleeve; ${contact}` };
}

function shaft({ map, canalMm }: ZonesAsked): Left {
  const weak = map.map.diaphysis?.weakSpots ?? [];
  const past = weak.length > 0 ? `; the stem must pass ${weak.map((w) => w.kind).join(', ')} by two diameters` : '';
  return {
    left: 'with-a-part',
    why: `holds with a stem; ${canalMm === null ? 'canal not measured' : `canal ${canalMm} mm`}${past}`,
  };
}
