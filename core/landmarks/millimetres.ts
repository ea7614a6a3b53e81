import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import type { LimbFrame } from './film-to-limb.ts';
import type { Reading } from './reading.ts';

export const NO_SCALE: Reason = {
  code: 'no-scale',
  message: 'The film has no scale: no millimetres can be given, only angles and ratios.',
  mend: 'Calibrate the film: known implant width, ball, or stated magnification.',
};

/** A length of the limb frame in mm of the patient: the only way from pixels to millimetres. Refuses without a scale. */
export const millimetres = (length: number, r: Reading<LimbFrame>): Outcome<number> =>
  r.mmPerUnit === null ? cannot(NO_SCALE) : ok(length * r.mmPerUnit);

/** The radiolucent insert's thickness in the frame's unit. Refuses without a scale or without the thickness. */
export function insertThickness(r: Reading<LimbFrame>): Outcome<number> {
  if (r.mmPerUnit === null) return cannot(NO_SCALE);
  return r.insertMm === null ? cannot(NO_INSERT) : ok(r.insertMm / r.mmPerUnit);
}

export const NO_INSERT: Reason = {
  code: 'insert-thickness-unknown',
  message:
    'The polyethylene does not show on the film and its thickness is not known: the bearing surface cannot be placed.',
  field: 'implants.insertMm',
  mend: 'Give the insert thickness from the operation note or label.',
};
