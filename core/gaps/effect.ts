import type { Catalogue } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { arcLaxity, MID_FLEXION_DEG } from './arc.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct, ConstructEffect } from './construct.ts';
import { extensionLaxityMm, flexionLaxityMm, slopeOpeningMm } from './laxity.ts';
import { type PartsOfConstruct, partsOf } from './parts-of.ts';
import { bearingMm, distalSpaceMm, overhangMm, posteriorSpaceMm, tibialSpaceMm } from './seating.ts';
import { trayPlaceIn } from './tray-place.ts';

const each = <T>(make: (side: 'medial' | 'lateral') => T): PerCompartment<T> => ({
  medial: make('medial'),
  lateral: make('lateral'),
});

/**
 * What a construct does to a knee, spec section 4: spaces under every face, height of the bearing, laxity of each
 * side at 0 and 90 degrees, overhang.
 *
 * All lengths in mm. Spaces: + filled with cement, - bone cut. Laxity: 0 = just taut, + loose, - tight.
 * Overhang: each side of a component over the middle of its bone, + beyond the bone; where its stem sets a tray elsewhere stands
 * in `trayPlace`. Flange gap: what the flange stands off beyond the offset of the coupler.
 * A segment replaces the end of its bone: no posterior face, no flange, no overhang (0); its distal or tibial spaces are
 * the bone that its cut takes (-).
 * Valid for any finite state and any construct of the catalogue, allowed or not: limits are judged elsewhere.
 */
export function effectOf(construct: Construct, state: BoneState, catalogue: Catalogue): ConstructEffect {
  return effectOfParts(construct, state, partsOf(construct, catalogue));
}

/** No face of the bone carries this side of the component. */
const NO_FACE: PerCompartment<number> = { medial: 0, lateral: 0 };

/** The same with the parts at hand. */
export function effectOfParts(construct: Construct, state: BoneState, parts: PartsOfConstruct): ConstructEffect {
  const { femurProximalMm: j, femurAnteriorMm: q, trayMm: u } = construct;
  const bearing = bearingMm(u, parts.tray.thicknessMm, parts.insert.heightMm);
  const opens = slopeOpeningMm({
    slopeDeg: construct.slopeDeg,
    referenceSlopeDeg: state.referenceSlopeDeg,
    contactBehindMm: state.flexionContactBehindMm,
  });
  const under = (thicknessMm: number, augment: { readonly thicknessMm: number } | null) => ({
    thicknessMm,
    augmentMm: augment?.thicknessMm ?? 0,
  });
  return {
    femurDistalSpaceMm: each((x) =>
      distalSpaceMm(state.femurDistalMm[x], under(parts.femur.distalMm, parts.distal[x]), j),
    ),
    femurPosteriorSpaceMm: parts.femoralSegment
      ? NO_FACE
      : each((x) => posteriorSpaceMm(state.femurPosteriorMm[x], under(parts.femur.posteriorMm, parts.posterior[x]), q)),
    tibiaSpaceMm: each((x) => tibialSpaceMm(state.tibiaMm[x], parts.blocks[x]?.thicknessMm ?? 0, u)),
    flangeGapMm: parts.femoralSegment ? 0 : construct.posteriorShiftMm - (parts.femoralOffset?.offsetMm ?? 0),
    bearingMm: bearing,
    extensionLaxityMm: each((x) => extensionLaxityMm(state.extensionLaxityMm[x], j, bearing)),
    flexionLaxityMm: each((x) =>
      flexionLaxityMm(state.flexionLaxityMm[x], q, { bearingMm: bearing, slopeOpeningMm: opens }),
    ),
    femurOverhangMm: parts.femoralSegment ? 0 : overhangMm(parts.femur.widthMm, state.femurWidthMm),
    trayOverhangMm: parts.tibialSegment ? 0 : overhangMm(parts.tray.widthMm, state.tibiaWidthMm),
    trayPlace: trayPlaceIn(parts, state),
    midFlexionMm: MID_FLEXION_DEG.map((flexionDeg) => ({
      flexionDeg,
      laxityMm: arcLaxity(
        { state, construct, femur: parts.femur, bearingMm: bearing, slopeOpeningMm: opens },
        flexionDeg,
      ),
    })),
  };
}

/** Flexion gap less extension gap, mean of both sides, mm: + = looser in flexion. */
export function flexionLessExtensionMm(effect: ConstructEffect): number {
  const mean = (p: PerCompartment<number>) => (p.medial + p.lateral) / 2;
  return mean(effect.flexionLaxityMm) - mean(effect.extensionLaxityMm);
}
