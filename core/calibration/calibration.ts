/**
 * How millimetres were earned. A length in mm can be made only from a calibration, and each source
 * states how far it is to be trusted. `none` gives angles and ratios only, never a silent 1.
 */
export type ScaleSource =
  | 'volumetric'
  | 'known-implant'
  | 'marker'
  | 'stated-magnification'
  | 'assumed-distance'
  | 'none';

/** Sources in their order of trust, best first. */
export const SCALE_SOURCES: readonly ScaleSource[] = [
  'volumetric',
  'known-implant',
  'marker',
  'stated-magnification',
  'assumed-distance',
  'none',
];

export interface EarnedScale {
  readonly source: Exclude<ScaleSource, 'none'>;
  /** Millimetres in the patient per pixel along a row (x) and along a column (y). */
  readonly mmPerPx: { readonly x: number; readonly y: number };
  /** Relative standard deviation of the scale, e.g. 0.01 = 1 %. */
  readonly relativeSd: number;
  /** Rule that gave it, e.g. `SCALE-3` (docs/rules/scale.md). */
  readonly rule: string;
  /** Plain words: where the scale comes from and where it holds. */
  readonly because: string;
  /** True where the film itself calls for caution: shown beside every length. */
  readonly doubtful: boolean;
}

export interface NoScale {
  readonly source: 'none';
  /** Height of a pixel over its width; null when even that is not known (then no angles either). */
  readonly pixelAspect: number | null;
  readonly rule: string;
  readonly because: string;
}

export type Calibration = EarnedScale | NoScale;

export const hasMillimetres = (c: Calibration): c is EarnedScale => c.source !== 'none';
