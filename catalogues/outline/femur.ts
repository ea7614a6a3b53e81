import type { Outlines } from '../../core/catalogue/catalogue.ts';
import { arc, closed, mirrored, type Point } from './curve.ts';

export interface FemurShape {
  readonly widthMm: number;
  readonly apMm: number;
  readonly distalMm: number;
  readonly posteriorMm: number;
  readonly boxWidthMm: number;
  readonly boxDepthMm: number;
}

/** From the front: flange, two condyles, the notch between them; and the box behind it. */
function coronal({ widthMm, apMm, boxWidthMm, boxDepthMm, distalMm }: FemurShape) {
  const half = widthMm / 2;
  const notch = boxWidthMm / 2;
  const middle = (half + notch) / 2;
  const radius = (half - notch) / 2;
  const rise = 0.19 * apMm;
  const flangeTop = 0.66 * apMm;
  const right: Point[] = [
    ...arc([0, flangeTop - 6], [half * 0.5, 6], { from: 90, to: 10, steps: 6 }),
    [half * 0.66, flangeTop * 0.7],
    [half * 0.93, rise + 0.12 * apMm],
    [half, rise + 2],
    ...arc([middle, rise], [radius, rise], { from: 0, to: -180, steps: 16 }),
    ...arc([0, rise], [notch, 0.1 * apMm], { from: 0, to: 90, steps: 6 }),
  ];
  const box: Point[] = [
    [notch, distalMm],
    [notch, boxDepthMm],
    [-notch, boxDepthMm],
    [-notch, distalMm],
  ];
  return [closed([...right, ...mirrored(right)]), closed(box)];
}

/** From the side: articular curve outside, the five cuts inside, and the box's roof. */
function sagittal({ apMm: a, distalMm: td, posteriorMm: tp, boxDepthMm }: FemurShape) {
  const r = 0.4 * a;
  const outside: Point[] = [
    [a, 0.66 * a],
    [a + 2.2, 0.665 * a],
    [a + 3.6, 0.58 * a],
    ...arc([r, 0.46 * a], [a + 5 - r, 0.46 * a], { from: 2, to: -90, steps: 16 }),
    ...arc([r, r], [r, r], { from: -90, to: -180, steps: 12 }).slice(1),
    ...arc([0.22 * a, r], [0.22 * a, 0.19 * a], { from: 180, to: 112, steps: 6 }).slice(1),
  ];
  const inside: Point[] = [
    [tp, 0.52 * a],
    [tp, td + 0.19 * a],
    [tp + 0.19 * a, td],
    [a - 0.24 * a, td],
    [a, td + 0.24 * a],
  ];
  const roof: Point[] = [
    [0.3 * a, td],
    [0.3 * a, boxDepthMm],
    [0.74 * a, boxDepthMm],
    [0.74 * a, td],
  ];
  return [closed([...outside, ...inside]), closed(roof)];
}

/** Outlines of an invented femoral component of these dimensions. */
export const femurOutlines = (shape: FemurShape): Outlines => ({ coronal: coronal(shape), sagittal: sagittal(shape) });
