import { dot3, type PatientVector, type SliceStack, slicePlaceMm, stackNormal } from '../landmarks/slice-stack.ts';
import { toDeg } from '../measure/angle.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Point, point } from '../plane/point.ts';
import type { RotationEvidence, RotationFilm } from './rotation-evidence.ts';

/** How the pixels of a stack turn into one plane of one limb, whatever slice they lie on. */
export interface TransverseFrame {
  readonly stack: SliceStack;
  /** Millimetres of a pixel along a row and down a column. */
  readonly mmPerPx: { readonly x: number; readonly y: number };
  /** Unit vectors of the plane in the patient: lateral and anterior. */
  readonly lateral: PatientVector;
  readonly anterior: PatientVector;
  /** Lean of the slices' normal from the long axis of the body, deg, 0 = axial. */
  readonly obliqueDeg: number;
}

/** Beyond this the slices are nearer to coronal or sagittal ones. */
const MOST_OBLIQUE_DEG = 45;

/**
 * Plane of a CT stack for one limb (ROT-1): x = lateral +, y = anterior +, mm, seen along the normal of the slices.
 * Directions come from the file's own vectors, never from how the picture is shown. Refuses a film without slices, slices
 * that are nearer to coronal or sagittal than to axial, and a stack without pixel spacing.
 */
export function transverseFrame(film: RotationFilm, side: RotationEvidence['side']): Outcome<TransverseFrame> {
  const { slices: stack, scaleFacts } = film;
  if (!stack || stack.each.length === 0)
    return cannot({
      code: 'no-slices',
      message: `Film ${film.id} is not a stack of CT slices: rotation cannot be measured on it.`,
      field: `films[${film.id}].slices`,
      mend: 'Import the CT series with all its slices at once.',
    });
  const spacing = scaleFacts.pixelSpacing;
  if (!spacing || !(spacing[0] > 0) || !(spacing[1] > 0))
    return cannot({
      code: 'pixel-spacing-missing',
      message: `The slices of ${film.id} do not state their pixel spacing.`,
      field: `films[${film.id}].scaleFacts.pixelSpacing`,
      mend: 'Export the series again with its pixel spacing.',
    });
  const normal = stackNormal(stack);
  const obliqueDeg = toDeg(Math.atan2(Math.hypot(normal[0], normal[1]), normal[2]));
  if (!(obliqueDeg <= MOST_OBLIQUE_DEG))
    return cannot({
      code: 'slices-not-axial',
      message: `The slices of ${film.id} lean ${obliqueDeg.toFixed(0)} degrees from axial: rotation is measured on axial slices.`,
      field: `films[${film.id}].slices`,
      mend: 'Import the axial series of the same scan.',
    });
  const left = inPlane([1, 0, 0], normal);
  const flip = side === 'left' ? 1 : -1;
  return ok({
    stack,
    mmPerPx: { x: spacing[1], y: spacing[0] },
    lateral: [flip * left[0], flip * left[1], flip * left[2]],
    anterior: forwards(left, normal),
    obliqueDeg,
  });
}

/** The part of a direction that lies in the plane of a unit normal, of length 1. */
function inPlane(v: PatientVector, normal: PatientVector): PatientVector {
  const out = dot3(v, normal);
  const flat: PatientVector = [v[0] - out * normal[0], v[1] - out * normal[1], v[2] - out * normal[2]];
  const size = Math.hypot(...flat);
  return [flat[0] / size, flat[1] / size, flat[2] / size];
}

/** Left times up is forwards. */
const forwards = (l: PatientVector, up: PatientVector): PatientVector => [
  l[1] * up[2] - l[2] * up[1],
  l[2] * up[0] - l[0] * up[2],
  l[0] * up[1] - l[1] * up[0],
];

/** A pixel of one slice in the plane of the limb, mm. The slice must be one of the stack. */
export function toTransverse(
  f: TransverseFrame,
  slice: number,
  px: { readonly x: number; readonly y: number },
): Point<'transverse'> {
  const { along, down, each } = f.stack;
  const origin = each[slice]?.originMm;
  if (!origin) throw new Error(`slice ${slice} is not in the stack`);
  const [u, v] = [px.x * f.mmPerPx.x, px.y * f.mmPerPx.y];
  const at: PatientVector = [
    origin[0] + u * along[0] + v * down[0],
    origin[1] + u * along[1] + v * down[1],
    origin[2] + u * along[2] + v * down[2],
  ];
  return point('transverse', dot3(at, f.lateral), dot3(at, f.anterior));
}

/** Place of a slice along the normal, mm, towards head +. */
export function levelOf(f: TransverseFrame, slice: number): number {
  const one = f.stack.each[slice];
  if (!one) throw new Error(`slice ${slice} is not in the stack`);
  return slicePlaceMm(f.stack, one);
}
