import { crests, median, slopes } from './across-profile.ts';
import type { ShaftStrip } from './shaft-strip.ts';
import { straightened } from './straightened.ts';

/** One wall along a strip, placed between columns. */
export interface PlacedWall {
  /** Columns from the middle line, signed, at each row. */
  readonly at: readonly number[];
  /** Change of grey a column at its steepest place, at each row. */
  readonly steepness: readonly number[];
  /** Steepness over the steepness of what lies beside it, at each row. */
  readonly overNoise: readonly number[];
  /** The next best wall of the same kind within reach over this one, 0 to 1, at each row. */
  readonly rival: readonly number[];
  /** How far the placed wall strays from a straight line through its neighbours, columns. */
  readonly stray: readonly number[];
}

export interface WallPath {
  /** Whole columns from the middle line, signed, at each row. */
  readonly columns: readonly number[];
  /** +1 = grey rises along the columns here, -1 = it falls. */
  readonly rise: 1 | -1;
  /** -1 where the wall of the bone faces to smaller columns, +1 to larger. */
  readonly side: 1 | -1;
}

export interface Placing {
  /** Columns a millimetre. */
  readonly perMm: number;
}

/** Blur before the last slope, how far a wall may move from its path, how far rivals are looked for, and rows averaged, mm. */
const SIGMA_MM = 0.3;
const MOVE_MM = 0.9;
const RIVAL_MM = 4;
const ROWS = 4;

/**
 * The walls of a round shaft begin like a square root of depth: a blur of sigma moves the steepest place inwards by
 * 0.765 sigma (where the integral of a Gaussian against x^-1/2 is greatest).
 */
export const ROUND_WALL = 0.765;

/** Places a wall between columns: profiles of the rows about it, laid together along the path, have their steepest place there. */
export function placedWall(strip: ShaftStrip, path: WallPath, { perMm }: Placing): PlacedWall {
  const even = straightened(path.columns, 6);
  const reach = Math.ceil((RIVAL_MM + 1) * perMm);
  const found = even.map((_, row) => {
    const profile = alignedProfile(strip, even, { row, reach });
    const slope = slopes(profile, SIGMA_MM * perMm).map((v) => v * path.rise);
    return bestCrest(slope, { reach, perMm });
  });
  const inwards = ROUND_WALL * SIGMA_MM * perMm * path.side;
  const raw = found.map((f, row) => (even[row] ?? 0) + f.shift + inwards);
  const smooth = straightened(raw, 4);
  const wide = straightened(raw, 10);
  return {
    at: smooth,
    steepness: found.map((f) => f.steepness),
    overNoise: found.map((f) => f.overNoise),
    rival: found.map((f) => f.rival),
    stray: smooth.map((v, row) => Math.abs(v - (wide[row] ?? v))),
  };
}

function alignedProfile(
  { values, width, stations }: ShaftStrip,
  even: readonly number[],
  { row, reach }: { row: number; reach: number },
): Float64Array {
  const half = (width - 1) / 2;
  const out = new Float64Array(2 * reach + 1);
  let rows = 0;
  for (let r = Math.max(0, row - ROWS); r <= Math.min(stations.length - 1, row + ROWS); r++) {
    rows += 1;
    for (let k = -reach; k <= reach; k++) {
      const c = Math.min(width - 1.001, Math.max(0, half + (even[r] ?? 0) + k));
      const c0 = Math.floor(c);
      const i = r * width + c0;
      out[k + reach] = (out[k + reach] ?? 0) + (values[i] ?? 0) * (1 - c + c0) + (values[i + 1] ?? 0) * (c - c0);
    }
  }
  return out.map((v) => v / rows);
}

function bestCrest(slope: Float64Array, { reach, perMm }: { reach: number; perMm: number }) {
  const all = crests(slope).map((c) => ({ shift: c.at - reach, height: c.height }));
  const near = all.filter((c) => Math.abs(c.shift) <= MOVE_MM * perMm);
  const worth = (c: { shift: number; height: number }) =>
    c.height * (1 - 0.4 * (Math.abs(c.shift) / (MOVE_MM * perMm)));
  const best = near.toSorted((a, b) => worth(b) - worth(a) || a.shift - b.shift)[0];
  if (!best) return { shift: 0, steepness: 0, overNoise: 0, rival: 1 };
  const away = (c: { shift: number }) => Math.abs(c.shift - best.shift) > 0.8 * perMm;
  const rivals = all.filter((c) => away(c) && Math.abs(c.shift) <= RIVAL_MM * perMm);
  const beside = [...slope].filter((_, i) => away({ shift: i - reach })).map(Math.abs);
  return {
    shift: best.shift,
    steepness: best.height,
    overNoise: best.height / Math.max(1e-6, 1.4826 * median(beside)),
    rival: Math.min(1, Math.max(0, ...rivals.map((c) => c.height)) / best.height),
  };
}
