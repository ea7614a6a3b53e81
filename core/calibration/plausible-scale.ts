import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import type { Calibration } from './calibration.ts';

/** Width of the distal femur or proximal tibia of any adult, mm, with room for enlargement that was not corrected. */
export const KNEE_WIDTH_MM = { least: 55, most: 110 } as const;

/**
 * Refuses a scale that makes the knee impossibly wide or narrow (SCALE-19): a scale that is wrong by
 * half or by two puts every adult knee outside 55 to 110 mm, one that is right puts none there.
 *
 * Inputs: the scale; width of the femur across the epicondyles or of the tibial plateau, in pixel
 * widths. Result: the scale itself. Without a scale there is nothing to judge.
 * Source: envelope from published widths (femur 64.5 to 85, tibia 66 to 83 mm, means) ± 3 SD and 15 % enlargement.
 */
export function plausibleScale(
  scale: Calibration,
  knee: { readonly bone: 'femur' | 'tibia'; readonly widthPx: number },
): Outcome<Calibration> {
  if (scale.source === 'none') return ok(scale);
  const mm = knee.widthPx * scale.mmPerPx.x;
  if (mm >= KNEE_WIDTH_MM.least && mm <= KNEE_WIDTH_MM.most) return ok(scale);
  return cannot({
    code: 'scale-implausible',
    message: `With this scale the ${knee.bone} would be ${Number.isFinite(mm) ? mm.toFixed(0) : '?'} mm wide; adult knees are ${KNEE_WIDTH_MM.least} to ${KNEE_WIDTH_MM.most} mm.`,
    field: 'scale',
    mend: 'Check the size entered for the object, its marks on the film, and the marks of the bone.',
  });
}
