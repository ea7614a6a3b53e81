/** A place or a direction in the patient: x = left +, y = back +, z = head +; places in mm (DICOM PS3.3 C.7.6.2.1.1). */
export type PatientVector = readonly [number, number, number];

/** One slice of a stack: its picture and where it lies. */
export interface Slice {
  /** SHA-256 of the file's bytes, hex. */
  readonly sha256: string;
  readonly file: string;
  /** Centre of the first pixel, mm in the patient. */
  readonly originMm: PatientVector;
}

/**
 * Slices of one series as a case stores them. They lie in parallel; their distance is in their origins and need not be
 * even. Pixel size: the film's scale facts.
 */
export interface SliceStack {
  /** Unit vectors that a row runs along, from left to right of the picture, and a column down it. */
  readonly along: PatientVector;
  readonly down: PatientVector;
  /** In order of place: towards head, back or left, whichever the stack mostly runs along. Marks name a slice by its place here, from 0. */
  readonly each: readonly Slice[];
}

export const dot3 = (a: PatientVector, b: PatientVector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross3 = (a: PatientVector, b: PatientVector): PatientVector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/**
 * Unit normal of the slices, turned so that its largest part is positive: towards head for axial slices, towards back
 * for coronal ones, towards left for sagittal ones. Of two parts equally large the later axis goes before.
 */
export function stackNormal({ along, down }: Pick<SliceStack, 'along' | 'down'>): PatientVector {
  const n = cross3(along, down);
  const size = Math.hypot(...n);
  const largest = [n[2], n[1], n[0]].reduce((best, part) => (Math.abs(part) > Math.abs(best) + 1e-9 ? part : best));
  const scale = (largest < 0 ? -1 : 1) / (size > 0 ? size : 1);
  return [n[0] * scale, n[1] * scale, n[2] * scale];
}

/** Where a slice lies along the normal, mm in the patient. */
export const slicePlaceMm = (stack: Pick<SliceStack, 'along' | 'down'>, slice: Pick<Slice, 'originMm'>): number =>
  dot3(stackNormal(stack), slice.originMm);

/** Added to Hounsfield units wherever slices are kept as whole numbers, so that air is not below zero. */
export const SLICE_OFFSET = 1024;

/** Letters of the standard for both ways of each axis: to minus, to plus (PS3.3 C.7.6.1.1.1). */
const LETTERS = [
  ['R', 'L'],
  ['A', 'P'],
  ['F', 'H'],
] as const;

/** Letter of the direction that a vector mostly points to: L, R, A, P, H or F. */
export function mainLetter(v: PatientVector): 'R' | 'L' | 'A' | 'P' | 'F' | 'H' {
  const [x, y, z] = [Math.abs(v[0]), Math.abs(v[1]), Math.abs(v[2])];
  const axis = x >= y && x >= z ? 0 : y >= z ? 1 : 2;
  return LETTERS[axis][v[axis] < 0 ? 0 : 1];
}
