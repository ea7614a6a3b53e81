import type { Reason } from '../measure/outcome.ts';
import type { CaseFile, Patient } from './case.ts';

/** What must agree where both state it; names are written in too many ways to be compared. */
const ASKED = ['id', 'birthDate', 'sex'] as const;

/** What two records of a person both state and state differently. */
export interface StatedOtherwise {
  readonly field: (typeof ASKED)[number];
  readonly one: string;
  readonly other: string;
}

type Person = { readonly [field in keyof Patient]?: string | undefined };

/** Number, birth date and sex that two records state differently; what either leaves out is not held against it. */
export const statedOtherwise = (one: Person, other: Person): readonly StatedOtherwise[] =>
  ASKED.flatMap((field) => {
    const [a, b] = [one[field], other[field]];
    return a === undefined || b === undefined || a === b ? [] : [{ field, one: a, other: b }];
  });

/**
 * Why two cases are not of the same knee: another side, or another person by number, birth date or sex as far as both state
 * it. Empty where nothing speaks against it.
 *
 * @param earlier the case that is held against `file`; the reasons name its fields.
 */
export function notTheSameKnee(file: CaseFile, earlier: CaseFile): readonly Reason[] {
  const otherSide: readonly Reason[] =
    file.side === earlier.side
      ? []
      : [
          {
            code: 'another-side',
            message: `The earlier case is of the ${earlier.side} knee, this one of the ${file.side}.`,
            field: 'side',
            mend: 'Name an earlier state of the same knee.',
          },
        ];
  const otherPerson = statedOtherwise(earlier.patient, file.patient).map(
    ({ field, one, other }): Reason => ({
      code: 'another-patient',
      message: `The earlier case is of another patient: ${field} is “${one}” there, “${other}” here.`,
      field: `patient.${field}`,
      mend: 'Name an earlier state of the same knee, or correct the patient in one of the two.',
    }),
  );
  return [...otherSide, ...otherPerson];
}
