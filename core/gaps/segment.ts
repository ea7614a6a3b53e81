import type { Femur, Segment, Tray } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';

/**
 * Farthest that the joint surface of a construct with a segment may stand from its target, mm (GAP-24, GAP-25): no
 * face of the bone holds it, so this limit stands in the place of the limits of cement and cut. Proposal, grade D.
 */
export const SEGMENT_REACH_MM = 20;

/** Class of bone loss that admits a segment (GAP-26). */
export const SEGMENT_CLASS = '3';

/** Every length in which a segment can be built, mm, shortest first. */
export const segmentLengthsMm = ({ replacesMm, stepsMm }: Segment): readonly number[] =>
  [...new Set([0, ...stepsMm])].sort((a, b) => a - b).map((step) => replacesMm + step);

/** A distal femoral component of one length as a femur that is as thick: distal face = cut of the shaft, where its stem begins. */
export const femurOfSegment = (segment: Segment, lengthMm: number): Femur => ({
  ref: segment.ref,
  name: segment.name,
  size: segment.size,
  side: segment.side,
  distalMm: lengthMm,
  posteriorMm: 0,
  apMm: segment.apMm,
  widthMm: segment.widthMm,
  boxWidthMm: 0,
  boxDepthMm: lengthMm,
  stemValgusDeg: segment.stemValgusDeg ?? 0,
  levels: segment.levels,
  outlines: segment.outlines ?? { coronal: [], sagittal: [] },
});

/** A proximal tibial component of one length as a tray that is as thick: its lower face = cut of the shaft. */
export const trayOfSegment = (segment: Segment, lengthMm: number): Tray => ({
  ref: segment.ref,
  name: segment.name,
  size: segment.size,
  thicknessMm: lengthMm,
  widthMm: segment.widthMm,
  apMm: segment.apMm,
  keelMm: 0,
  outlines: segment.outlines ?? { coronal: [], sagittal: [] },
});

/**
 * Least J that leaves the cut of a distal femoral component in sound bone on both sides (GAP-24): the cut stands at
 * `J + length`, and no lower than the higher support.
 *
 * @param supportMm D, mm proximal of the target joint line; length in mm.
 * @returns mm proximal of the target joint line.
 */
export const leastProximalMm = (supportMm: PerCompartment<number>, lengthMm: number): number =>
  Math.max(supportMm.medial, supportMm.lateral) - lengthMm;

/**
 * Greatest U that leaves the cut of a proximal tibial component in sound bone on both sides (GAP-25): no higher than
 * the deeper support.
 *
 * @param supportMm T, mm distal of the target joint line.
 * @returns mm proximal of the target joint line (negative = distal).
 */
export const greatestTrayMm = (supportMm: PerCompartment<number>): number =>
  -Math.max(supportMm.medial, supportMm.lateral);

/**
 * Bone that a segment replaces beyond what is lost already: mean of both sides of what is cut away (GAP-24, GAP-25).
 *
 * @param spaceMm spaces under the component as elsewhere: - = bone cut.
 * @returns mm, >= 0 wherever the cut is sound.
 */
export const boneReplacedMm = (spaceMm: PerCompartment<number>): number => -(spaceMm.medial + spaceMm.lateral) / 2;
