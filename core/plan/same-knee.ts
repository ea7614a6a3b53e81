import type { Reason } from '../measure/outcome.ts';
import type { CaseFile } from './case.ts';

/** What two cases of one person must both say, where both say it; names are written in too many ways to be compared. */
const ASKED = ['id', 'birthDate', 'sex'] as const;

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
  const otherPerson = ASKED.flatMap((field): Reason[] => {
    const [now, before] = [file.patient[field], earlier.patient[field]];
    if (now === undefined || before === undefined || now === before) return [];
    return [
      {
        code: 'another-patient',
        message: `The earlier case is of another patient: ${field} is “${before}” there, “${now}” here.`,
        field: `patient.${field}`,
        mend: 'Name an earlier state of the same knee, or correct the patient in one of the two.',
      },
    ];
  });
  return [...otherSide, ...otherPerson];
}
