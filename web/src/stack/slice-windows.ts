import { SLICE_OFFSET } from '@gapline/core/landmarks/slice-stack.ts';
import type { GreyWindow } from '../film/grey.ts';

export type WindowName = 'bone' | 'metal' | 'soft';

export const WINDOW_WORDS: Readonly<Record<WindowName, string>> = {
  bone: 'Bone',
  metal: 'Metal',
  soft: 'Soft tissue',
};

/** Ends of the windows, Hounsfield units (ROT-17). */
const BONE = { low: -500, high: 1500 } as const;
const SOFT = { low: -160, high: 240 } as const;
const METAL_LOW = 1000;
/** Brightest value of a scanner's usual scale of 12 bits: a metal window never ends below it. */
const USUAL_TOP = 3071;

/** A grey window on the stored values of a stack. `most` = brightest stored value seen so far. */
export function namedWindow(name: WindowName, most: number): GreyWindow {
  const { low, high } =
    name === 'bone'
      ? BONE
      : name === 'soft'
        ? SOFT
        : { low: METAL_LOW, high: Math.max(most - SLICE_OFFSET, USUAL_TOP) };
  return { low: low + SLICE_OFFSET, high: high + SLICE_OFFSET, inverted: false };
}
