import type { Compartment } from '../landmarks/side.ts';
import type { Reason } from '../measure/outcome.ts';
import type { SurfaceLoss } from './bone-map.ts';
import { checkMetaphysis, type SizeOfBone } from './check-metaphysis.ts';
import { isShort } from './class-factors.ts';
import {
  attachmentsOf,
  landmarkOf,
  type MapOfBone,
  type MappedSurface,
  mapField,
  metaphysisOf,
  SIDES,
  surfacesOf,
} from './map-of-bone.ts';

/**
 * A loss deeper than this beyond the resection plane is past epicondyles and tubercle, mm: they lie 27 mm (0.325 of an epicondylar
 * width of 82, Rajagopal 2011) and 22 mm (Servien 2008) from the joint line, and the plane lies beyond the joint line already.
 */
export const PAST_THE_LANDMARK_MM = 25;

/**
 * What contradicts itself in the map of one bone (BONE-7): each with the field at fault and how to mend it. Empty = nothing.
 * Nothing is repaired: the class and the plan go on with the map as it is, and say so.
 *
 * Lengths mm, shares %. `size` is what is known of the bone from elsewhere; what it does not say is not checked.
 *
 * Example: depth 0 with 60 % of the surface unsupported is one contradiction, on the share.
 */
export function checkBoneMap(m: MapOfBone, size: SizeOfBone = {}): readonly Reason[] {
  return [
    ...SIDES.flatMap((side) => surfacesOf(m, side)).flatMap(checkSurface),
    ...(m.bone === 'femur' && m.map.anterior ? checkSurface(ANTERIOR(m.map.anterior)) : []),
    ...SIDES.flatMap((side) => checkFlareOfSide(m, side)),
    ...checkReach(m),
    ...checkMetaphysis(m, size),
  ];
}

const ANTERIOR = (loss: SurfaceLoss): MappedSurface => ({
  surface: 'anterior',
  label: 'anterior femur',
  field: 'bone.femurMap.anterior',
  loss,
});

/** One surface in itself. */
function checkSurface({ label, field, loss }: MappedSurface): readonly Reason[] {
  const { depthMm, depthSdMm, unsupportedPct, rim, contained } = loss;
  const found: Reason[] = [];
  const clash = (name: keyof SurfaceLoss, message: string, mend: string) =>
    found.push({
      code: 'bone-map-contradicts',
      message: `${capital(label)}: ${message}`,
      field: `${field}.${name}`,
      mend,
    });
  const outside = (v: number | undefined, most: number) => v !== undefined && !(v >= 0 && v <= most);
  if (outside(depthMm, Number.MAX_VALUE)) clash('depthMm', 'the depth is no length.', 'Give 0 or more millimetres.');
  if (outside(depthSdMm, Number.MAX_VALUE))
    clash('depthSdMm', 'the spread of the depth is no length.', 'Give 0 or more millimetres.');
  if (outside(unsupportedPct, 100))
    clash('unsupportedPct', 'the share without support is no share.', 'Give 0 to 100 %.');
  if (depthMm === 0 && (unsupportedPct ?? 0) > 0)
    clash(
      'unsupportedPct',
      `no depth, but ${unsupportedPct} % unsupported.`,
      'Give the depth, or set the share to 0 %.',
    );
  if ((depthMm ?? 0) > 0 && unsupportedPct === 0)
    clash('unsupportedPct', `${depthMm} mm deep, but all of it supported.`, 'Give the share, or set the depth to 0.');
  if (rim === 'intact' && contained === false)
    clash('contained', 'not contained, although the rim is intact.', 'Set the rim to lost, or the loss to contained.');
  if (rim === 'lost' && contained === true)
    clash('contained', 'contained, although the rim is lost.', 'Set the rim to intact, or the loss to not contained.');
  if (rim === 'intact' && unsupportedPct === 100)
    clash('rim', 'the whole surface is lost, but its rim is intact.', 'Set the rim to lost, or lower the share.');
  return found;
}

/** The flare against the surface over it. */
function checkFlareOfSide(m: MapOfBone, side: Compartment): readonly Reason[] {
  const { flare } = metaphysisOf(m);
  if (flare === undefined) return [];
  const field = `${mapField(m.bone)}.metaphysis.flare`;
  const surfaces = surfacesOf(m, side);
  const noLoss = surfaces.every(({ loss }) => loss.depthMm === 0 && (loss.unsupportedPct ?? 0) === 0);
  const clash = (message: string, mend: string): Reason => ({ code: 'bone-map-contradicts', message, field, mend });
  const gone = flare === 'absent';
  const found: Reason[] = [];
  if ((gone || isShort(flare, side)) && noLoss)
    found.push(
      clash(
        `The flare is ${gone ? 'gone' : 'shortened'} on the ${side} side, but nothing is lost of the surface over it.`,
        'Give the depth of the loss on that side, or correct the flare.',
      ),
    );
  for (const { label, loss } of surfaces) {
    if (gone && loss.rim === 'intact')
      found.push(clash(`${capital(label)}: rim intact, but the segment under it is lost.`, 'Correct rim or flare.'));
    if (gone && loss.contained === true && loss.rim !== 'intact')
      found.push(clash(`${capital(label)}: contained, but the flare is gone.`, 'Correct containment or flare.'));
  }
  return found;
}

/** How far the loss reaches, against what is said to be held or intact beyond it. */
function checkReach(m: MapOfBone): readonly Reason[] {
  const { label, field, reached } = landmarkOf(m);
  const clash = (at: string, message: string, mend: string): Reason => ({
    code: 'bone-map-contradicts',
    message,
    field: at,
    mend,
  });
  if (reached === true) {
    const beyond = attachmentsOf(m).filter((a) => m.bone === 'femur' || a.field.endsWith('.patellarTendon'));
    const held = beyond.filter((a) => a.state === 'held');
    return [
      ...(held.length === beyond.length
        ? held.map((a) =>
            clash(
              a.field,
              `The loss reaches ${label}, but the ${a.label} is said to be held.`,
              'Say which attachment is lost, or how far the loss reaches.',
            ),
          )
        : []),
      ...(metaphysisOf(m).flare === 'intact'
        ? [clash(field, `The loss reaches ${label}, but the flare is intact.`, 'Correct the flare or the reach.')]
        : []),
    ];
  }
  if (reached === undefined) return [];
  return (
    SIDES.flatMap((side) => surfacesOf(m, side))
      // A posterior condyle is lost forwards: that way lies no epicondyle.
      .filter(({ surface, loss }) => surface !== 'posterior' && (loss.depthMm ?? 0) > PAST_THE_LANDMARK_MM)
      .map((s) =>
        clash(
          field,
          `${capital(s.label)}: ${s.loss.depthMm} mm deep, which is past the landmark, but the loss is said not to reach ${label}.`,
          'Correct the depth or the reach.',
        ),
      )
  );
}

const capital = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
