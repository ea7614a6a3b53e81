import { dot3, type PatientVector } from '@gapline/core/landmarks/slice-stack.ts';
import type { DataSet } from '../dicom/data-set.ts';
import { TAG } from '../dicom/tags.ts';
import { decimals, text, texts } from '../dicom/values.ts';

/** Where one slice lies in the patient, as its file states it. */
export interface SlicePlace {
  /** Centre of the first pixel, mm: x left +, y back +, z head +. */
  readonly originMm: PatientVector;
  /** Unit vectors along a row and down a column. */
  readonly along: PatientVector;
  readonly down: PatientVector;
  /** Slices of one frame of reference share one origin. */
  readonly frameOfReference?: string;
  /** Patient Orientation (0020,0020) as written, where the file gives it as well. */
  readonly statedDirections?: readonly string[];
}

/** How far the two directions may be from unit length and from square to each other: files round them to six digits or fewer. */
const ROUNDING = 0.01;

/**
 * Place of a slice after Image Position and Image Orientation (Patient) (PS3.3 C.7.6.2.1.1). Undefined where either is
 * missing or the two directions are none.
 */
export function slicePlace(set: DataSet): SlicePlace | undefined {
  const origin = decimals(set, TAG.ImagePositionPatient);
  const cosines = decimals(set, TAG.ImageOrientationPatient);
  if (origin?.length !== 3 || cosines?.length !== 6) return undefined;
  const along = unit(cosines.slice(0, 3));
  const down = unit(cosines.slice(3, 6));
  if (!along || !down || Math.abs(dot3(along, down)) > ROUNDING) return undefined;
  const frameOfReference = text(set, TAG.FrameOfReferenceUID);
  const stated = texts(set, TAG.PatientOrientation).filter((word) => word !== '');
  return {
    originMm: vector(origin),
    along,
    down,
    ...(frameOfReference === undefined ? {} : { frameOfReference }),
    ...(stated.length === 2 ? { statedDirections: stated } : {}),
  };
}

const vector = ([x = 0, y = 0, z = 0]: readonly number[]): PatientVector => [x, y, z];

function unit(parts: readonly number[]): PatientVector | null {
  const v = vector(parts);
  const size = Math.hypot(...v);
  return Math.abs(size - 1) > ROUNDING ? null : [v[0] / size, v[1] / size, v[2] / size];
}
