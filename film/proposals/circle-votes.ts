import type { Reduced } from './reduced.ts';

/** A circle of the smaller film for which many edges vote: middle and radius in its pixels, and the share of its outline that voted. */
export interface VotedCircle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly votes: number;
}

export interface VoteSearch {
  readonly least: number;
  readonly most: number;
  /** Part of the smaller film that is looked at. */
  readonly window: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
  /** Slopes under this are not edges, grey a pixel. */
  readonly slope: number;
  readonly count: number;
}

/** Bands of radius are this ratio apart, so that an edge's direction error stays within one cell. */
const BAND = 1.12;

/** Radii that stand for the bands between two radii. */
export function bands(least: number, most: number): number[] {
  const n = Math.max(1, Math.ceil(Math.log(most / least) / Math.log(BAND)));
  return Array.from({ length: n }, (_, i) => least * (most / least) ** ((i + 0.5) / n));
}

/** Edges of the smaller film: where, and the unit direction in which grey rises. */
interface Edges {
  readonly at: Uint32Array;
  readonly rise: Float32Array;
  readonly count: number;
}

/**
 * Circles that are brighter inside: every edge votes, along its own rise of grey, for the middles that it may belong to,
 * one accumulator a band of radius (Kimme, Ballard and Sklansky, Commun ACM 1975; 18:120). A vote counts for its share
 * of the outline, so that small and large circles compare. Best first; near twins are left out.
 */
export function circleVotes(film: Reduced, search: VoteSearch): VotedCircle[] {
  const edges = edgesOf(film, search);
  const votes = new Float32Array(film.columns * film.rows);
  const found = bands(search.least, search.most).flatMap((radius) => {
    votes.fill(0);
    vote(film, edges, { votes, radius });
    return peaks(votes, film, { radius, count: 4 * search.count });
  });
  found.sort(byVotes);
  const kept: VotedCircle[] = [];
  for (const c of found) {
    if (kept.length >= search.count) break;
    if (kept.every((k) => Math.hypot(k.x - c.x, k.y - c.y) > 0.5 * Math.max(k.radius, c.radius))) kept.push(c);
  }
  return kept;
}

const byVotes = (a: VotedCircle, b: VotedCircle): number => b.votes - a.votes || a.y - b.y || a.x - b.x;

function edgesOf({ values, columns, rows }: Reduced, { window, slope }: VoteSearch): Edges {
  const at = new Uint32Array(columns * rows);
  const rise = new Float32Array(2 * columns * rows);
  let count = 0;
  for (let y = Math.max(1, window.y0); y < Math.min(rows - 1, window.y1); y++)
    for (let x = Math.max(1, window.x0); x < Math.min(columns - 1, window.x1); x++) {
      const i = y * columns + x;
      const gx = ((values[i + 1] ?? 0) - (values[i - 1] ?? 0)) / 2;
      const gy = ((values[i + columns] ?? 0) - (values[i - columns] ?? 0)) / 2;
      const g = Math.sqrt(gx * gx + gy * gy);
      if (g < slope || g === 0) continue;
      at[count] = i;
      rise[2 * count] = gx / g;
      rise[2 * count + 1] = gy / g;
      count += 1;
    }
  return { at, rise, count };
}

function vote(
  { columns, rows }: Reduced,
  edges: Edges,
  { votes, radius }: { votes: Float32Array; radius: number },
): void {
  const half = radius * (Math.sqrt(BAND) - 1);
  const share = 1 / (2 * Math.PI * radius);
  const step = Math.max(0.5, half);
  for (let e = 0; e < edges.count; e++) {
    const i = edges.at[e] ?? 0;
    const y = Math.floor(i / columns);
    const x = i - y * columns;
    const [ux, uy] = [edges.rise[2 * e] ?? 0, edges.rise[2 * e + 1] ?? 0];
    let last = -1;
    for (let r = radius - half; r <= radius + half + 1e-9; r += step) {
      const cx = Math.round(x + ux * r);
      const cy = Math.round(y + uy * r);
      const to = cy * columns + cx;
      if (cx < 1 || cy < 1 || cx >= columns - 1 || cy >= rows - 1 || to === last) continue;
      last = to;
      votes[to] = (votes[to] ?? 0) + share;
    }
  }
}

/** Share of an outline that has to vote before a place is looked at. */
const FEW_VOTES = 0.15;

/** Cells whose neighbourhood of 3 x 3 holds the most votes hereabouts, best first. */
function peaks(
  votes: Float32Array,
  { columns, rows }: Reduced,
  { radius, count }: { radius: number; count: number },
): VotedCircle[] {
  const about = (i: number): number => {
    let s = 0;
    for (let d = -columns; d <= columns; d += columns)
      s += (votes[i + d - 1] ?? 0) + (votes[i + d] ?? 0) + (votes[i + d + 1] ?? 0);
    return s;
  };
  const found: VotedCircle[] = [];
  for (let y = 1; y < rows - 1; y++)
    for (let x = 1; x < columns - 1; x++) {
      const i = y * columns + x;
      if (votes[i] === 0) continue;
      const v = about(i);
      if (v < FEW_VOTES) continue;
      const top = [-columns - 1, -columns, -columns + 1, -1].every((d) => v > about(i + d));
      const low = [columns - 1, columns, columns + 1, 1].every((d) => v >= about(i + d));
      if (top && low) found.push({ x, y, radius, votes: v });
    }
  return found.sort(byVotes).slice(0, count);
}
