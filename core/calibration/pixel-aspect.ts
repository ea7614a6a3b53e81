import type { FilmScaleFacts } from './film-scale-facts.ts';

/** Two statements of the same ratio may differ by rounding only. */
const ROUNDING = 0.005;

/**
 * Height of a pixel over its width. Angles and ratios need it even where there are no millimetres.
 *
 * From the spacings in the file (all spacings of one film share their aspect), else from Pixel Aspect
 * Ratio, else 1 (SCALE-10: "angles only if the aspect ratio is 1\1 or absent").
 * Null when the file contradicts itself by more than 0.5 %: then not even angles can be measured.
 * Source: DICOM PS3.3 C.7.6.3.1.7 and 10.7.1.
 */
export function pixelAspect(facts: FilmScaleFacts): number | null {
  const spacing = facts.pixelSpacing ?? facts.imagerPixelSpacing ?? facts.nominalScannedPixelSpacing;
  const fromSpacing = spacing && isSpacing(spacing) ? spacing[0] / spacing[1] : undefined;
  const stated = facts.pixelAspect !== undefined && facts.pixelAspect > 0 ? facts.pixelAspect : undefined;
  if (fromSpacing !== undefined && stated !== undefined && Math.abs(fromSpacing / stated - 1) > ROUNDING) return null;
  return fromSpacing ?? stated ?? 1;
}

/** A spacing counts only when both values are finite and above zero. */
export const isSpacing = (pair: readonly [number, number] | undefined): pair is readonly [number, number] =>
  pair?.every((v) => Number.isFinite(v) && v > 0) === true;
