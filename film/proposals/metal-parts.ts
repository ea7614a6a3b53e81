import type { Reduced } from './reduced.ts';

/** One connected piece of what is as bright as metal, on the smaller film. */
export interface MetalPart {
  readonly label: number;
  readonly pixels: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  /** Its uppermost pixel, of these the leftmost: where following the outline begins. */
  readonly first: number;
}

/** The pieces, and to which of them each pixel belongs (0 = none). */
export interface MetalParts {
  readonly labels: Uint16Array;
  readonly parts: readonly MetalPart[];
}

/** Connected pieces at or over a grey, neighbours counted across corners too, of at least `fewest` pixels; in the order of their first pixel. */
export function metalParts({ values, columns, rows }: Reduced, from: number, fewest: number): MetalParts {
  const labels = new Uint16Array(values.length);
  const parts: MetalPart[] = [];
  const stack: number[] = [];
  let label = 0;
  for (let start = 0; start < values.length && label < 65_000; start++) {
    if (labels[start] !== 0 || !((values[start] ?? 0) >= from)) continue;
    label += 1;
    const box = { x0: columns, y0: rows, x1: 0, y1: 0 };
    let pixels = 0;
    labels[start] = label;
    stack.push(start);
    for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
      pixels += 1;
      const y = Math.floor(i / columns);
      const x = i - y * columns;
      box.x0 = Math.min(box.x0, x);
      box.x1 = Math.max(box.x1, x);
      box.y0 = Math.min(box.y0, y);
      box.y1 = Math.max(box.y1, y);
      for (let ny = Math.max(0, y - 1); ny <= Math.min(rows - 1, y + 1); ny++)
        for (let nx = Math.max(0, x - 1); nx <= Math.min(columns - 1, x + 1); nx++) {
          const n = ny * columns + nx;
          if (labels[n] !== 0 || !((values[n] ?? 0) >= from)) continue;
          labels[n] = label;
          stack.push(n);
        }
    }
    if (pixels >= fewest) parts.push({ label, pixels, ...box, first: start });
  }
  return { labels, parts };
}

/** Clockwise from the west, as places beside a pixel. */
const AROUND = [
  [-1, 0],
  [-1, -1],
  [0, -1],
  [1, -1],
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
] as const;

/** The outer outline of a piece, clockwise as seen on the film, as pixels of the smaller film (Moore's neighbour following). */
export function outlineOf(
  { labels }: MetalParts,
  part: MetalPart,
  { columns, rows }: { columns: number; rows: number },
): { x: number; y: number }[] {
  const inside = (x: number, y: number) =>
    x >= 0 && y >= 0 && x < columns && y < rows && labels[y * columns + x] === part.label;
  const start = { x: part.first % columns, y: Math.floor(part.first / columns) };
  const out = [start];
  let at = start;
  let from = 0;
  const limit = 4 * part.pixels + 8;
  for (let step = 0; step < limit; step++) {
    let turned = 0;
    let next: { x: number; y: number } | null = null;
    let way = from;
    for (; turned < 8; turned++) {
      way = (from + turned) % 8;
      const [dx, dy] = AROUND[way] ?? [0, 0];
      if (inside(at.x + dx, at.y + dy)) {
        next = { x: at.x + dx, y: at.y + dy };
        break;
      }
    }
    if (!next) break;
    at = next;
    if (at.x === start.x && at.y === start.y) break;
    out.push(at);
    from = (way + 5) % 8;
  }
  return out;
}
