import { canalSpan } from './canal-span.ts';
import type { CanalSection } from './straight-stem.ts';

/** How a stem fills its canal in one view. */
export interface CanalFill {
  /** Greatest ratio of stem diameter to canal width along the stem, and where, mm along the bone. */
  readonly greatest: number;
  readonly greatestAtMm: number;
  /** Lengths along which the ratio is over 0.7 and over 0.85, mm. */
  readonly over70Mm: number;
  readonly over85Mm: number;
}

/** Length of a span along which the width is under a limit, mm; exact, because the width runs straight between sections. */
function lengthUnder(sections: readonly CanalSection[], limitMm: number): number {
  let length = 0;
  for (const [i, b] of sections.entries()) {
    const a = sections[i - 1];
    if (!a) continue;
    const [wa, wb] = [a.highMm - a.lowMm, b.highMm - b.lowMm];
    const whole = b.zMm - a.zMm;
    if (wa < limitMm && wb < limitMm) length += whole;
    else if (wa < limitMm !== wb < limitMm) length += (whole * (limitMm - Math.min(wa, wb))) / Math.abs(wb - wa);
  }
  return length;
}

/**
 * Canal fill along a stem from `fromMm` to `toMm` (STM-7): diameter over inner width at each level of what was traced.
 * Null where none of the stem lies in the traced canal.
 */
export function canalFill(
  sections: readonly CanalSection[],
  { diameterMm, fromMm, toMm }: { readonly diameterMm: number; readonly fromMm: number; readonly toMm: number },
): CanalFill | null {
  const span = canalSpan(sections, fromMm, toMm);
  let narrowest: CanalSection | null = null;
  for (const s of span) {
    if (!narrowest || s.highMm - s.lowMm < narrowest.highMm - narrowest.lowMm - 1e-9) narrowest = s;
  }
  if (!narrowest) return null;
  return {
    greatest: diameterMm / Math.max(1e-6, narrowest.highMm - narrowest.lowMm),
    greatestAtMm: narrowest.zMm,
    over70Mm: lengthUnder(span, diameterMm / 0.7),
    over85Mm: lengthUnder(span, diameterMm / 0.85),
  };
}

/** Limits of fill and engagement (STM-7): Lee 2020 (BMC Musculoskelet Disord 21:15), 65 hybrid revisions; 40 mm of engagement quoted there. */
export const FILL_LIMITS = { femurOver70Mm: 20, greatest: 0.85, engagedMm: 40 } as const;

/** Whether one view meets a published limit. */
export interface FillVerdict {
  readonly fill: boolean;
  readonly engaged: boolean;
}

/**
 * Femur: over 0.7 along more than 20 mm, or over 0.85 somewhere; tibia: over 0.85 somewhere. Engaged: over 0.85 along at
 * least 40 mm. Both are wishes for press-fit stems, never hard limits: one series of 65 knees stands behind the first.
 */
export const fillMeets = (fill: CanalFill, bone: 'femur' | 'tibia'): FillVerdict => ({
  fill: fill.greatest > FILL_LIMITS.greatest || (bone === 'femur' && fill.over70Mm > FILL_LIMITS.femurOver70Mm),
  engaged: fill.over85Mm >= FILL_LIMITS.engagedMm,
});
