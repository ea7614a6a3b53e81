import type { Viewport } from './viewport.ts';

/** Edges of the area, clockwise. */
export const EDGES = ['right', 'bottom', 'left', 'top'] as const;

/** Number of the edge that the film's columns run towards on the screen; half way between two: the next one clockwise. */
export function edgeAhead({ mirrored, turnDeg }: Pick<Viewport, 'mirrored' | 'turnDeg'>): number {
  const quarters = Math.round(((mirrored ? 180 : 0) + turnDeg) / 90);
  return ((quarters % 4) + 4) % 4;
}
