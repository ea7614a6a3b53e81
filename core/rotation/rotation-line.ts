import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Side } from '../landmarks/side.ts';
import type { Reason, Warning } from '../measure/outcome.ts';

/** One rotation measured on CT, or what is missing for it: a line of the table of measurements. */
export interface RotationLine {
  readonly id: 'ct-femoral-rotation' | 'ct-tibial-rotation' | 'ct-combined-rotation';
  readonly label: string;
  readonly side: Side;
  /** Degrees, internal negative; null when it could not be measured. */
  readonly value: number | null;
  readonly unit: 'deg';
  readonly sd: number | null;
  readonly sign: string;
  readonly film: string | null;
  readonly scale: 'not-needed';
  /** Which axis was used, and the value as the papers write it. */
  readonly variant?: string;
  readonly inputs: readonly LandmarkId[];
  readonly rule: string;
  readonly source: string;
  readonly normal: string;
  readonly flags: readonly Warning[];
  readonly missing?: readonly LandmarkId[];
  readonly refused?: Reason;
}

type Head = Omit<
  RotationLine,
  'side' | 'value' | 'sd' | 'film' | 'variant' | 'inputs' | 'flags' | 'missing' | 'refused'
>;

const common = { unit: 'deg', scale: 'not-needed' } as const;

export const FEMORAL: Head = {
  ...common,
  id: 'ct-femoral-rotation',
  label: 'Femoral component rotation on CT',
  sign: '- = internal, + = external, 0 = parallel to the epicondylar axis',
  rule: 'ROT-2',
  source: 'Berger 1993',
  normal:
    'Native condyles 3.5 ± 1.2 internal in men, 0.3 ± 1.2 in women (Berger 1993); about 3 internal in both elsewhere (Servien 2008).',
};

export const TIBIAL: Head = {
  ...common,
  id: 'ct-tibial-rotation',
  label: 'Tibial component rotation on CT',
  sign: '- = internal, + = external, 0 = points at the tip of the tubercle',
  rule: 'ROT-4',
  source: 'Berger & Crossett 1998',
  normal: '18 ± 2.6 internal to the tip of the tubercle (Berger & Crossett 1998, from memory).',
};

export const COMBINED: Head = {
  ...common,
  id: 'ct-combined-rotation',
  label: 'Combined excess rotation on CT',
  sign: '- = internal, + = external, 0 = both components as in the native knee',
  rule: 'ROT-5',
  source: 'Berger & Crossett 1998; Valkering 2015',
  normal:
    'Excess internal 1 to 4: tilt; 3 to 8: subluxation; 7 to 17: dislocation or late failure of the patella. No cut-off for revision is known (Valkering 2015).',
};
