import type { PatientVector } from '@gapline/core/landmarks/slice-stack.ts';
import type { ColumnDirection } from '@gapline/core/landmarks/view.ts';

/** Letters of the standard for both ways of each axis: to minus, to plus (PS3.3 C.7.6.1.1.1). */
const LETTERS = [
  ['R', 'L'],
  ['A', 'P'],
  ['F', 'H'],
] as const;

const largestAxis = (v: PatientVector): 0 | 1 | 2 => {
  const [x, y, z] = v.map(Math.abs) as [number, number, number];
  return x >= y && x >= z ? 0 : y >= z ? 1 : 2;
};

/** Letter of the direction that a vector mostly points to: L, R, A, P, H or F. */
export function mainLetter(v: PatientVector): string {
  const axis = largestAxis(v);
  return LETTERS[axis][v[axis] < 0 ? 0 : 1];
}

/** Whether the letters of Patient Orientation name the directions of the vectors; the first letter of each is the main one. */
export const agrees = (stated: readonly string[], along: PatientVector, down: PatientVector): boolean =>
  stated[0]?.[0]?.toUpperCase() === mainLetter(along) && stated[1]?.[0]?.toUpperCase() === mainLetter(down);

const TOWARDS: Readonly<Record<string, ColumnDirection>> = {
  L: 'patient-left',
  R: 'patient-right',
  A: 'anterior',
  P: 'posterior',
};

/** Direction that the columns run towards; undefined where a row runs along the body. */
export const columnsAlong = (along: PatientVector): ColumnDirection | undefined => TOWARDS[mainLetter(along)];
