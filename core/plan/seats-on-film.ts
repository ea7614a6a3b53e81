import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { between, dot, midpoint, type Point } from '../plane/point.ts';
import { type BoneOnFilm, behindAxisMm, spot } from './bones-on-film.ts';
import type { Seat } from './draw-construct.ts';

/** Where a femoral component belongs on an AP film: about the middle of its bone. */
export const femurSeatOnAp = (bone: BoneOnFilm<'coronal'>, targetMm: number): Seat<'coronal'> => ({
  bone,
  acrossMm: middleAcross(bone, 'femoral-bone-medial-edge', 'femoral-bone-lateral-edge'),
  targetMm,
});

/** The same of a tray. */
export const traySeatOnAp = (bone: BoneOnFilm<'coronal'>, targetMm: number): Seat<'coronal'> => ({
  bone,
  acrossMm: middleAcross(bone, 'tibial-cortex-medial', 'tibial-cortex-lateral'),
  targetMm,
});

/**
 * Where a femoral component belongs on a lateral film: across counts forwards from the target posterior line, which lies
 * A0 behind the anterior cortex. Null where the posterior cortex of the shaft is not marked.
 */
export function femurSeatOnLateral(
  bone: BoneOnFilm<'sagittal'>,
  { targetMm, anteriorToPosteriorMm: a0 }: { readonly targetMm: number; readonly anteriorToPosteriorMm: number },
): (Seat<'sagittal'> & { readonly shaftMiddleMm: number }) | null {
  const depth = shaftDepthMm(bone);
  if (depth === null) return null;
  return { bone, acrossMm: behindAxisMm(bone, bone.zero) - a0, targetMm, shaftMiddleMm: a0 - depth / 2 };
}

/** How far the middle of a bone lies across from its axis, mm; 0 where its edges are not marked. */
function middleAcross(bone: BoneOnFilm<'coronal'>, a: LandmarkId, b: LandmarkId): number {
  const [p, q] = [bone.film.placed.get(a)?.at, bone.film.placed.get(b)?.at];
  if (!p || !q) return 0;
  return dot(between(spot(bone, 0, 0), midpoint(p, q)), bone.across as Point<'coronal'>) * bone.mm;
}

/** Depth of the femoral shaft at its lower level, mm; null where its posterior cortex is not marked. */
function shaftDepthMm(bone: BoneOnFilm<'sagittal'>): number | null {
  const back = bone.film.placed.get('femoral-sagittal-distal-posterior')?.at;
  return back ? behindAxisMm(bone, back) : null;
}
