import type { DiaphysisMap, WeakSpot } from '../bone/bone-map.ts';

/** Least distance from a stem's tip to other metal (STM-12): 110 mm or two outer diameters, whichever is more; from memory. */
export const METAL_GAP = { mm: 110, diameters: 2 } as const;

/** Outer diameters of the shaft by which a stem passes a weak spot (STM-13). */
export const BYPASS_DIAMETERS = 2;

/** Met, not met, or not known because something was not measured. */
export type Standing3 = 'met' | 'not-met' | 'not-known';

export interface MetalGap {
  readonly standing: Standing3;
  /** From tip to metal, mm; negative = they overlap. */
  readonly gapMm: number;
  readonly wantedMm: number;
}

/** Distance from a tip to other metal in the shaft; null where no other metal is stated. Lengths from the target joint line, mm. */
export function metalGap(tipMm: number, shaft: DiaphysisMap): MetalGap | null {
  if (shaft.otherMetalMm === undefined) return null;
  const gapMm = shaft.otherMetalMm - tipMm;
  const byDiameter = shaft.outerDiameterMm === undefined ? null : METAL_GAP.diameters * shaft.outerDiameterMm;
  const wantedMm = Math.max(METAL_GAP.mm, byDiameter ?? 0);
  return { standing: gapMm < wantedMm ? 'not-met' : byDiameter === null ? 'not-known' : 'met', gapMm, wantedMm };
}

export interface Bypass {
  readonly spot: WeakSpot;
  readonly standing: Standing3;
  /** How far the tip stands beyond the far end of the spot, mm; negative = short of it. */
  readonly beyondMm: number;
  /** Two outer diameters, mm; null = the outer diameter is not known. */
  readonly wantedMm: number | null;
}

/** Whether a tip passes every weak spot of the shaft by two outer diameters (STM-13). Lengths from the target joint line, mm. */
export const bypasses = (tipMm: number, shaft: DiaphysisMap): readonly Bypass[] =>
  (shaft.weakSpots ?? []).map((spot) => {
    const beyondMm = tipMm - spot.farEndMm;
    const wantedMm = shaft.outerDiameterMm === undefined ? null : BYPASS_DIAMETERS * shaft.outerDiameterMm;
    const standing =
      beyondMm < 0 ? 'not-met' : wantedMm === null ? 'not-known' : beyondMm >= wantedMm ? 'met' : 'not-met';
    return { spot, standing, beyondMm, wantedMm };
  });
