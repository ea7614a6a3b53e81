import { median, slopes } from './across-profile.ts';
import { type CortexPath, cortexPath, type WallWorth } from './cortex-path.ts';
import type { FilmPoint, GreyFilm } from './grey-film.ts';
import { METAL_CLIMB } from './metal-climb.ts';
import { onStrip, type ShaftStrip, type Station, shaftStrip } from './shaft-strip.ts';
import { straightened } from './straightened.ts';

/** What a canal and its cortex may measure, mm: half the canal, and one cortex. */
const HALF_CANAL_MM = { least: 2.5, most: 26 } as const;
const CORTEX_MM = { least: 1, most: 14 } as const;

/** Falls nearer than this, mm, belong to the wall itself. */
const GAP_MM = 2;

/** Signs of side A and side B across the shaft. */
export const SIDES = [-1, 1] as const;

/** How a strip is read, mm by the rough scale. */
export interface StripReading {
  readonly rowMm: number;
  /** How far to either side, between columns, and blur. */
  readonly reachMm: number;
  readonly stepMm: number;
  readonly sigmaMm: number;
  /** Pixels a millimetre. */
  readonly px: number;
  /** The film's range of grey. */
  readonly range: number;
}

/** A strip with the walls that were followed on it, whole columns. */
export interface WalledStrip {
  readonly strip: ShaftStrip;
  /** Side A, side B. */
  readonly paths: readonly [CortexPath, CortexPath];
  /** How steep the steepest place of each row is, the gentlest edge of metal being 1. */
  readonly steepest: readonly number[];
}

/** Lays the film straight along stations and follows the walls of both sides (PRO-6); null where no pair of walls fits in. */
export function walledStrip(film: GreyFilm, stations: readonly Station[], s: StripReading): WalledStrip | null {
  const stepPx = s.stepMm * s.px;
  const strip = shaftStrip(film, stations, { reachPx: s.reachMm * s.px, stepPx, bandPx: (s.rowMm * s.px) / 2 });
  const slope = alongMean(stripSlopes(strip, s.sigmaMm / s.stepMm), strip, 2);
  // Where a blur of sigma has passed, the slope of an edge is its climb over sigma times the root of two pi.
  const metalClimb = METAL_CLIMB * Math.max(1, s.range);
  const metalSlope = (metalClimb * s.stepMm) / (Math.sqrt(2 * Math.PI) * s.sigmaMm);
  const full = Math.min(fullSlope(slope, strip), metalSlope / 2);
  const columns = (mm: number) => Math.round(mm / s.stepMm);
  const limits = {
    inner: { least: columns(HALF_CANAL_MM.least), most: columns(HALF_CANAL_MM.most) },
    thickness: { least: columns(CORTEX_MM.least), most: columns(CORTEX_MM.most) },
    stepCost: 0.06,
  };
  const [a, b] = SIDES.map((side) =>
    cortexPath(wallWorth(slope, strip, { side, full, metal: metalSlope / full, gap: columns(GAP_MM) }), limits),
  );
  const steepest = strip.stations.map((_, row) =>
    slope.subarray(row * strip.width, (row + 1) * strip.width).reduce((m, v) => Math.max(m, Math.abs(v)), 0),
  );
  return a && b ? { strip, paths: [a, b], steepest: steepest.map((v) => v / metalSlope) } : null;
}

function stripSlopes({ values, width, stations }: ShaftStrip, sigma: number): Float32Array {
  const out = new Float32Array(values.length);
  for (let row = 0; row < stations.length; row++)
    out.set(slopes(Float64Array.from(values.subarray(row * width, (row + 1) * width)), sigma), row * width);
  return out;
}

/** Mean over rows to either side: walls run nearly along the strip, noise does not. */
function alongMean(values: Float32Array, { width, stations }: ShaftStrip, reach: number): Float32Array {
  const rows = stations.length;
  const out = new Float32Array(values.length);
  for (let row = 0; row < rows; row++)
    for (let k = -reach; k <= reach; k++) {
      const from = Math.min(rows - 1, Math.max(0, row + k)) * width;
      for (let c = 0; c < width; c++)
        out[row * width + c] = (out[row * width + c] ?? 0) + (values[from + c] ?? 0) / (2 * reach + 1);
    }
  return out;
}

/** The slope of a clear wall: what few columns of a row exceed, in the middle one of the rows, so that metal in some of them does not count. */
function fullSlope(slope: Float32Array, { width, stations }: ShaftStrip): number {
  const rows = stations.map((_, row) => {
    const sorted = Float32Array.from(slope.subarray(row * width, (row + 1) * width), Math.abs).sort();
    return sorted[Math.floor(0.97 * (width - 1))] ?? 0;
  });
  return Math.max(1e-6, median(rows));
}

/** Worth of a rise of grey as a wall, a clear one being 1: steeper than bone ever is, it is metal and worth nothing. */
const worthOf = (rise: number, metal: number): number => (rise > metal ? 0 : Math.min(1, Math.max(-0.5, rise)));

/**
 * Worth of every place as an inner and as an outer wall. Beyond the first clear fall of grey lies soft tissue or another
 * bone, as the fibula beside the tibia: what stands there is worth less by that fall.
 */
function wallWorth(
  slope: Float32Array,
  { width, stations }: ShaftStrip,
  { side, full, metal, gap }: { side: -1 | 1; full: number; metal: number; gap: number },
): WallWorth {
  const rows = stations.length;
  const half = (width - 1) / 2;
  const reach = half + 1;
  const inner = new Float32Array(rows * reach);
  const outer = new Float32Array(rows * reach);
  for (let row = 0; row < rows; row++) {
    let fallen = 0;
    for (let k = 0; k < reach; k++) {
      const rise = (k: number) => (side * (slope[row * width + half + side * k] ?? 0)) / full;
      if (k >= gap) fallen = Math.max(fallen, Math.min(1, -rise(k - gap)));
      inner[row * reach + k] = worthOf(rise(k), metal) - fallen;
      outer[row * reach + k] = worthOf(-rise(k), metal) - fallen;
    }
  }
  return { inner, outer, rows, reach };
}

/** Middle of the outer walls, smooth along the shaft. */
export function smoothedMiddles({ strip, paths }: WalledStrip): FilmPoint[] {
  const half = (strip.width - 1) / 2;
  const middles = strip.stations.map((_, row) => ((paths[1].outer[row] ?? 0) - (paths[0].outer[row] ?? 0)) / 2);
  const even = straightened(middles, 20);
  return strip.stations.map((_, row) => onStrip(strip, row, half + (even[row] ?? 0)));
}
