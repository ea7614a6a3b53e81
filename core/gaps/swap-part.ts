import type { Catalogue, Insert } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { Construct } from './construct.ts';

/**
 * Inserts that may stand in place of a construct's own, thinnest first: the same size and constraint, so that femur and
 * tray stay what they are. The construct's own is one of them.
 */
export function insertLadder(construct: Construct, catalogue: Catalogue): readonly Insert[] {
  const own = catalogue.inserts.find((i) => i.ref === construct.insert);
  if (!own) return [];
  return catalogue.inserts
    .filter((i) => i.size === own.size && i.level === own.level)
    .toSorted((a, b) => a.heightMm - b.heightMm || (a.ref < b.ref ? -1 : 1));
}

/** The construct with another insert; the tray stays where it is, so that the bearing rises or sinks with the insert. */
export const withInsert = (construct: Construct, insert: string): Construct => ({ ...construct, insert });

/** One more or one less under the femur: augments of both sides changed by the same thickness. */
export interface DistalStep {
  /** Thickness against the construct's own, mm, + = thicker. */
  readonly byMm: number;
  readonly augments: PerCompartment<string | null>;
  /** Thickness on each side, mm; 0 = none. */
  readonly thicknessMm: PerCompartment<number>;
}

/**
 * Distal augments that may stand in place of a construct's own, thinnest first, both sides changed alike, so that the
 * femur does not tilt. The construct's own is the step of 0 mm. Empty for a distal femoral component.
 */
export function distalLadder(construct: Construct, catalogue: Catalogue): readonly DistalStep[] {
  const femur = catalogue.femurs.find((f) => f.ref === construct.femur);
  if (!femur) return [];
  const all = catalogue.femoralAugments.filter((a) => a.face === 'distal' && a.femurSizes.includes(femur.size));
  const options = [{ ref: null, thicknessMm: 0 }, ...all];
  const own = (ref: string | null): number => options.find((o) => o.ref === ref)?.thicknessMm ?? 0;
  const now = { medial: own(construct.distalAugments.medial), lateral: own(construct.distalAugments.lateral) };
  return options
    .flatMap((medial): DistalStep[] => {
      const byMm = medial.thicknessMm - now.medial;
      const lateral = options.find((o) => Math.abs(o.thicknessMm - now.lateral - byMm) < 1e-9);
      if (!lateral) return [];
      return [
        {
          byMm,
          augments: { medial: medial.ref, lateral: lateral.ref },
          thicknessMm: { medial: medial.thicknessMm, lateral: lateral.thicknessMm },
        },
      ];
    })
    .toSorted((a, b) => a.byMm - b.byMm);
}

/**
 * The construct with other distal augments. The femur stands on them: its distal surface moves by as much as they are
 * thicker (J falls), and the cement under it stays as thick as it was. Extension alone follows; flexion does not.
 *
 * Example: 5 mm more under both sides closes extension by 5 mm.
 */
export const withDistalAugments = (construct: Construct, step: DistalStep): Construct => ({
  ...construct,
  distalAugments: step.augments,
  femurProximalMm: construct.femurProximalMm - step.byMm,
});
