import type { ScaleSource } from '@gapline/core/calibration/calibration.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { ColumnDirection, View } from '@gapline/core/landmarks/view.ts';
import { numberInWords as number } from '@gapline/core/measure/number-words.ts';
import { Z95 } from '@gapline/core/measure/quantity.ts';

export { LEVEL_WORDS } from '@gapline/core/constraint/level-words.ts';
export { numberInWords as number, withUnit } from '@gapline/core/measure/number-words.ts';

/** The pages' words for the closed lists of the core. */
export const VIEW_WORDS: Readonly<Record<View, string>> = {
  'long-leg': 'Long leg',
  ap: 'Knee AP',
  lateral: 'Knee lateral',
  skyline: 'Skyline',
  'stress-varus': 'Varus stress',
  'stress-valgus': 'Valgus stress',
  ct: 'CT',
  other: 'Other',
};

export const SCALE_WORDS: Readonly<Record<ScaleSource | 'not-needed', string>> = {
  volumetric: 'CT spacing',
  'known-implant': 'known implant width',
  marker: 'calibration ball',
  'stated-magnification': 'stated magnification',
  'assumed-distance': 'assumed distance',
  none: 'no scale',
  'not-needed': 'no scale needed',
};

export const DIRECTION_WORDS: Readonly<Record<ColumnDirection, string>> = {
  'patient-left': "the patient's left",
  'patient-right': "the patient's right",
  anterior: 'the front',
  posterior: 'the back',
};

export const ROLE_WORDS = {
  present: 'The knee as it is now',
  'before-first-replacement': 'Before the first replacement',
  'after-first-replacement': 'After the first replacement',
} as const;

export const sideWord = (side: Side | 'both'): string =>
  side === 'both' ? 'Both legs' : side === 'right' ? 'Right' : 'Left';

/** The same with a plus where it is above zero: for amounts whose sign means something. */
export const signed = (value: number, unit = 'mm'): string => {
  const text = number(value, unit);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
};

/** Half the width of the 95 % interval, with its sign before it; empty where no spread is known. */
export const spread = (sd: number | null, unit = 'mm'): string => (sd === null ? '' : `± ${number(Z95 * sd, unit)}`);

/** Date and time of an ISO instant as the reader's clock has it, to the minute. */
export function instant(iso: string): string {
  const when = new Date(iso);
  if (Number.isNaN(when.getTime())) return iso;
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())} ${two(when.getHours())}:${two(when.getMinutes())}`;
}
