import type { Outcome } from '../measure/outcome.ts';
import { type Direction, direction } from '../plane/direction.ts';
import { midpoint, type Point } from '../plane/point.ts';
import type { KneeEvidence } from './knee-evidence.ts';
import type { LandmarkId } from './landmark-table.ts';
import type { Reading } from './reading.ts';

type R = Reading<'coronal'>;

/** A line with the landmarks that span it. Joint lines run from medial to lateral, shafts from distal to proximal. */
export interface MarkedLine {
  readonly inputs: readonly LandmarkId[];
  readonly direction: (r: R) => Outcome<Direction<'coronal'>>;
}

const spanned = (medial: LandmarkId, lateral: LandmarkId): MarkedLine => ({
  inputs: [medial, lateral],
  direction: (r) => direction(r.at(medial), r.at(lateral)),
});

/** Tangent to both distal condyles: of the component where there is one. */
export const FEMORAL_LINE = spanned('medial-condyle-distal', 'lateral-condyle-distal');
export const TRAY_LINE = spanned('tray-medial-edge', 'tray-lateral-edge');
export const PLATEAU_LINE = spanned('medial-plateau', 'lateral-plateau');

/** The tibia's joint line: the tray's upper metal line, or the plateaus of a native knee. */
export const tibialLine = (state: KneeEvidence['state']): MarkedLine =>
  state === 'replaced' ? TRAY_LINE : PLATEAU_LINE;

const shaft = (bone: 'femoral' | 'tibial'): MarkedLine => ({
  inputs: [
    `${bone}-shaft-proximal-medial`,
    `${bone}-shaft-proximal-lateral`,
    `${bone}-shaft-distal-medial`,
    `${bone}-shaft-distal-lateral`,
  ],
  direction: (r) =>
    direction(
      midpoint(r.at(`${bone}-shaft-distal-medial`), r.at(`${bone}-shaft-distal-lateral`)),
      midpoint(r.at(`${bone}-shaft-proximal-medial`), r.at(`${bone}-shaft-proximal-lateral`)),
    ),
});

/** Anatomic axes: through the middles of the shaft at two levels. */
export const FEMORAL_SHAFT = shaft('femoral');
export const TIBIAL_SHAFT = shaft('tibial');

export const HIP: LandmarkId = 'femoral-head';
export const ANKLE: readonly LandmarkId[] = ['talus-medial', 'talus-lateral'];

export const hip = (r: R): Point<'coronal'> => r.at(HIP);
/** Middle of the talar dome. */
export const ankle = (r: R): Point<'coronal'> => midpoint(r.at('talus-medial'), r.at('talus-lateral'));
