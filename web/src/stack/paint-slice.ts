import { toScreen, type Viewport } from '../film/viewport.ts';
import type { SliceValues } from './stack-shelf.ts';

/** Colour of each value of a slice, through a table of all 65536 values. */
export function colourSlice(values: SliceValues, table: Uint32Array, into: Uint32Array): void {
  for (let i = 0; i < into.length; i++) into[i] = table[values[i]!]!;
}

/** Canvas transform from the corner of a slice's first pixel to the screen, at `ratio` device pixels a CSS pixel. */
export function canvasTransform(v: Viewport, ratio: number): DOMMatrix2DInit {
  const origin = toScreen(v, { x: -0.5, y: -0.5 });
  const right = toScreen(v, { x: 0.5, y: -0.5 });
  const below = toScreen(v, { x: -0.5, y: 0.5 });
  return {
    a: (right.x - origin.x) * ratio,
    b: (right.y - origin.y) * ratio,
    c: (below.x - origin.x) * ratio,
    d: (below.y - origin.y) * ratio,
    e: origin.x * ratio,
    f: origin.y * ratio,
  };
}
