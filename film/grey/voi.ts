import type { GreyPipeline, LookUpTable, Window } from '../film.ts';
import { lookUp } from './look-up-table.ts';

/** Gives the share of full brightness, 0 to 1, for a value after the modality transform. */
export type Voi = (value: number) => number;

/**
 * A window as a function of brightness. LINEAR, with its half-unit offsets, and SIGMOID after DICOM
 * PS3.3 C.11.2.1.2 and C.11.2.1.3.1, LINEAR_EXACT after C.11.2.1.3.2. A width below 1 (LINEAR) acts as 1: a step.
 */
export function windowVoi(window: Window, how: GreyPipeline['windowFunction']): Voi {
  const { center, width } = window;
  if (how === 'SIGMOID') return (x) => 1 / (1 + Math.exp((-4 * (x - center)) / width));
  const { low, high } = windowEdges(window, how);
  if (high <= low) return (x) => (x <= low ? 0 : 1);
  return (x) => (x <= low ? 0 : x > high ? 1 : (x - low) / (high - low));
}

/** Values at which a window's ramp starts and ends; of a sigmoid, its tangent at the centre. */
export function windowEdges(
  { center, width }: Window,
  how: GreyPipeline['windowFunction'],
): { readonly low: number; readonly high: number } {
  if (how !== 'LINEAR') return { low: center - width / 2, high: center + width / 2 };
  const half = Math.max(width - 1, 0) / 2;
  return { low: center - 0.5 - half, high: center - 0.5 + half };
}

export const lutVoi = (lut: LookUpTable): Voi => {
  const full = 2 ** lut.bits - 1;
  return (x) => Math.min(lookUp(lut, Math.round(x)) / full, 1);
};

/** Inputs at which a VOI LUT reaches 1 and 99 % of its own range: the straight window nearest to it. */
export function lutEdges(lut: LookUpTable): { readonly low: number; readonly high: number } {
  let least = 65535;
  let most = 0;
  for (const entry of lut.entries) {
    least = Math.min(least, entry);
    most = Math.max(most, entry);
  }
  const reach = (share: number) => lut.entries.findIndex((entry) => entry >= least + share * (most - least));
  return { low: lut.first + reach(0.01), high: lut.first + reach(0.99) };
}
