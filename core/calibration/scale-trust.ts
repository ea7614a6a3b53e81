/**
 * How far each way to a scale is trusted: relative standard deviations.
 *
 * Implant 1 %, marker 2 %, fixed or assumed magnification 5 %: derived from published film geometry
 * (measured knee films enlarge by 15.3 % AP and 12.1 % lateral; a ball against a fixed 20 % errs by
 * 1.48 ± 0.89 % against 1.65 ± 1.59 %; 1 cm out of plane costs about 1 %). See docs/rules/scale.md.
 */
export const MARKER_SD = 0.02;
export const FIXED_SD = 0.05;

/** Both edges of the metal together, mm; with 0.7 % for make and plane this gives 1 % at a 74 mm tray. */
export const IMPLANT_EDGES_MM = 0.5;
export const IMPLANT_SD = 0.007;

/** In-plane geometry of CT and MR after acceptance tests, from memory. */
export const VOLUMETRIC_SD = 0.002;

/** Femur and tibia of one leg are enlarged differently: 7.3 % against 5.2 % on long-leg films, so 2 % along the leg. */
export const STITCHED_SD = 0.02;

/** A bone cannot be reduced by the beam; above 1.40 the stated numbers are wrong (ceiling: choice of this project). */
export const MAGNIFICATION_RANGE = { least: 1, most: 1.4 } as const;

/** Rounding of decimal strings in files: two spacings closer than this are the same spacing. */
export const SAME_SPACING = 0.001;
