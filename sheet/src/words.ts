import type { Side } from '@gapline/core/landmarks/side.ts';

export const SIDE_IN_WORDS: Readonly<Record<Side, string>> = { right: 'RIGHT KNEE', left: 'LEFT KNEE' };

/** +2.0, 0.0, −1.5: the sign is part of the number, a true minus is easier to see than a hyphen. */
export function signed(value: number, digits = 1): string {
  const rounded = value.toFixed(digits);
  if (Number(rounded) === 0) return (0).toFixed(digits);
  return value > 0 ? `+${rounded}` : rounded.replace('-', '−');
}

/** A height over the target in words: 2.0 mm proximal, 1.5 mm distal, on target. */
export function overTarget(mm: number): string {
  const size = Math.abs(mm).toFixed(1);
  if (Number(size) === 0) return 'on target';
  return `${size} mm ${mm > 0 ? 'proximal' : 'distal'} of target`;
}

/** The name of a person as films store it, `Family^Given`, as one reads it. */
export const readableName = (name: string): string =>
  name
    .split('^')
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .join(', ');
