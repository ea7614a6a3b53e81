import type { Stop } from '@gapline/core/landmarks/guided-order.ts';
import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import { PLACES, type SketchName } from './places.ts';

/**
 * How each small drawing lies in one common frame, mm about the knee: its point that stands for the middle of the joint, and
 * what one unit of it measures. The leg is drawn at a quarter of the scale of the knee. What is drawn on pictures of its own
 * (slices of a stack) lies far apart, so that one picture is finished before the next.
 */
const FRAMES: Readonly<
  Record<SketchName, { readonly x: number; readonly y: number; readonly mm: number; readonly down: number }>
> = {
  leg: { x: 38, y: 128, mm: 4, down: 0 },
  'knee-front': { x: 60, y: 90, mm: 1, down: 0 },
  'knee-side': { x: 60, y: 90, mm: 1, down: 0 },
  skyline: { x: 60, y: 60, mm: 1, down: 0 },
  'slice-femur': { x: 60, y: 55, mm: 1, down: 0 },
  'slice-tibia': { x: 60, y: 55, mm: 1, down: 2000 },
};

/** Where a landmark is expected, mm from the middle of the knee, y down; of an outline its middle. Good enough to order by. */
export function expectedPlace(id: LandmarkId): Stop {
  const { on, at } = PLACES[id];
  const { x, y, mm, down } = FRAMES[on];
  const mean = (axis: 0 | 1): number => at.reduce((s, p) => s + p[axis], 0) / at.length;
  return { x: (mean(0) - x) * mm, y: (mean(1) - y) * mm + down };
}
