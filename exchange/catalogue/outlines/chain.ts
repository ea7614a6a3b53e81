import type { XY } from './flatten.ts';

/** Ends nearer than this, drawing units, are one point: what rounding in a file leaves. */
const ONE_POINT = 0.01;

const meet = (a: XY | undefined, b: XY | undefined): boolean =>
  a !== undefined && b !== undefined && Math.hypot(a[0] - b[0], a[1] - b[1]) <= ONE_POINT;

/** Pieces of line put end to end, turned round where needed, in the order in which they stand in the file. */
export function chained(pieces: readonly (readonly XY[])[]): XY[][] {
  const left = pieces.map((p) => [...p]);
  const lines: XY[][] = [];
  for (let line = left.shift(); line; line = left.shift()) {
    for (let grew = true; grew && !meet(line[0], line.at(-1)); ) {
      grew = false;
      for (let i = 0; i < left.length && !grew; i++) {
        const next = left[i] as XY[];
        const joined = joinedTo(line, next);
        if (!joined) continue;
        line = joined;
        left.splice(i, 1);
        grew = true;
      }
    }
    lines.push(line);
  }
  return lines;
}

function joinedTo(line: XY[], next: XY[]): XY[] | null {
  if (meet(line.at(-1), next[0])) return [...line, ...next.slice(1)];
  if (meet(line.at(-1), next.at(-1))) return [...line, ...next.toReversed().slice(1)];
  if (meet(line[0], next.at(-1))) return [...next, ...line.slice(1)];
  if (meet(line[0], next[0])) return [...next.toReversed(), ...line.slice(1)];
  return null;
}

/** The same line without its last points where they are the first again: outlines are closed by themselves. */
export function opened(line: readonly XY[]): XY[] {
  const open = [...line];
  while (open.length > 2 && meet(open[0], open.at(-1))) open.pop();
  return open;
}
