import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Calibration } from './calibration.ts';

export interface LengthOptions {
  /** Direction of the length on the film: along a row or along a column. */
  readonly axis: 'x' | 'y';
  /** Standard deviation of the marked length, px; absent = the scale's alone. */
  readonly sdPx?: number;
}

/**
 * A length in the patient, mm, from a length on the film, px along one film axis. Sign is kept.
 * Its SD joins the scale's relative SD with that of the marking. Source: propagation of independent errors.
 * Refuses without a scale (SCALE-21): no scale, no millimetres.
 *
 * @example lengthMm(scaleOf(0.15 mm per px, 2 %), 100, { axis: 'x' }) is 15 mm with SD 0.3 mm
 */
export function lengthMm(scale: Calibration, px: number, options: LengthOptions): Outcome<Quantity> {
  if (!Number.isFinite(px)) {
    return cannot({ code: 'not-a-finite-number', message: 'The length on the film is not a number.', field: 'px' });
  }
  if (scale.source === 'none') {
    return cannot({
      code: 'no-scale',
      message: `No millimetres on this film. ${scale.because}`,
      field: 'scale',
      mend: 'Mark an implant of known width or a ball, or accept a magnification.',
    });
  }
  const mm = scale.mmPerPx[options.axis];
  return ok({ value: px * mm, unit: 'mm', sd: Math.hypot(px * mm * scale.relativeSd, (options.sdPx ?? 0) * mm) });
}
