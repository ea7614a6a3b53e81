import { mainLetter, type PatientVector } from '@gapline/core/landmarks/slice-stack.ts';
import type { ColumnDirection } from '@gapline/core/landmarks/view.ts';

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
