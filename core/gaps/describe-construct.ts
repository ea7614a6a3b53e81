import type { Catalogue } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { Construct } from './construct.ts';
import { partsOf } from './parts-of.ts';

/** One line of the parts list. */
export interface PartLine {
  readonly ref: string;
  readonly name: string;
  /** Where it goes, in words. */
  readonly where: string;
  /** Pieces. */
  readonly amount: number;
}

interface Named {
  readonly ref: string;
  readonly name: string;
}

const line = (part: Named | null, where: string): PartLine[] =>
  part ? [{ ref: part.ref, name: part.name, where, amount: 1 }] : [];

/** Two equal augments are one line of two. */
function pair(parts: PerCompartment<Named | null>, face: string): PartLine[] {
  const { medial, lateral } = parts;
  if (medial && lateral && medial.ref === lateral.ref)
    return [{ ref: medial.ref, name: medial.name, where: `${face}, medial and lateral`, amount: 2 }];
  return [...line(medial, `${face}, medial`), ...line(lateral, `${face}, lateral`)];
}

/**
 * The parts of a construct in the order in which they are asked for in theatre: tibia, femur, insert.
 * References and names are the catalogue's own. Throws on references of another catalogue: that is a bug.
 */
export function describeConstruct(construct: Construct, catalogue: Catalogue): readonly PartLine[] {
  const parts = partsOf(construct, catalogue);
  return [
    ...line(
      parts.tray,
      parts.tibialSegment ? `tibia, ${parts.tray.thicknessMm} mm from the insert to the cut` : 'tibia',
    ),
    ...pair(parts.blocks, 'under the tray'),
    ...line(parts.tibialCone, 'tibia, metaphysis'),
    ...line(parts.tibialSleeve, 'tibia, metaphysis'),
    ...line(parts.tibialOffset, 'tibia, between tray and stem, offset towards the middle of the bone'),
    ...line(parts.tibialStem, 'tibia, canal'),
    ...line(
      parts.femur,
      parts.femoralSegment ? `femur, ${parts.femur.distalMm} mm from the joint surface to the cut` : 'femur',
    ),
    ...pair(parts.distal, 'femur, distal'),
    ...pair(parts.posterior, 'femur, posterior'),
    ...line(parts.femoralCone, 'femur, metaphysis'),
    ...line(parts.femoralSleeve, 'femur, metaphysis'),
    ...line(parts.femoralOffset, 'femur, between component and stem, offset backwards'),
    ...line(parts.femoralStem, 'femur, canal'),
    ...line(parts.insert, 'bearing'),
  ];
}
