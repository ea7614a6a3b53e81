import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { point } from '@gapline/core/plane/point.ts';
import type { CanalLevel } from '@gapline/core/stems/canal-trace.ts';
import { median } from './across-profile.ts';
import { type FilmPoint, type GreyFilm, refusedFilm, refusedHint, refusedSize } from './grey-film.ts';
import { greyRange } from './grey-range.ts';
import { type PlacedWall, placedWall } from './placed-wall.ts';
import { type Ground, type Proposal, ramp, type Trust, weighed } from './proposal.ts';
import { bowedStations, onStrip, straightStations } from './shaft-strip.ts';
import { SIDES, smoothedMiddles, type WalledStrip, walledStrip } from './walled-strip.ts';

/** One level of a proposed canal, ready for the case, with its own confidence. */
export interface ProposedLevel {
  readonly level: Required<CanalLevel>;
  readonly widthPx: number;
  readonly outerWidthPx: number;
  readonly trust: Trust;
}

/** The walls of a canal along a shaft, from `near` to `far`; its confidence is the median of its levels'. */
export interface CanalProposal extends Proposal {
  readonly levels: readonly ProposedLevel[];
}

export interface CanalSearch {
  /** Two places in the canal, about in its middle: near the joint, and as far out as it is to be traced. */
  readonly near: FilmPoint;
  readonly far: FilmPoint;
  /** Millimetres a pixel, roughly: how far to either side is looked follows from it, no length. The spacing at the detector will do. */
  readonly mmPerPx: number;
  /** Distance between levels, mm by that scale; absent = 12. */
  readonly everyMm?: number;
}

/** Millimetres by the rough scale: between rows, how far to either side is looked, first and second time, and between columns. */
const ROW_MM = 1;
const PASSES = [
  { reachMm: 38, stepMm: 0.4, sigmaMm: 0.8 },
  { reachMm: 32, stepMm: 0.3, sigmaMm: 0.5 },
] as const;

const FEWEST_ROWS = 20;

/**
 * Inner and outer cortices along a shaft (PRO-6), with the width of the canal at every level.
 * The film is laid straight along the line from `near` to `far`; on either side the pair of walls that is worth most is
 * followed by a minimal path; the strip is laid again along the middle found, and each wall is placed between pixels.
 * Result: levels from `near` outwards, film pixels, ready for `case.canals`; every level says its own confidence.
 * Refuses a line too short to follow.
 */
export function traceCanal(film: GreyFilm, search: CanalSearch): Outcome<CanalProposal> {
  const refused =
    refusedFilm(film) ??
    refusedHint(film, search.near, 'near') ??
    refusedHint(film, search.far, 'far') ??
    refusedSize(search.mmPerPx, 'mmPerPx') ??
    refusedSize(search.everyMm, 'everyMm');
  if (refused) return refused;
  const px = 1 / search.mmPerPx;
  const range = greyRange(film);
  const straight = straightStations(search.near, search.far, ROW_MM * px);
  if (straight.length < FEWEST_ROWS) return tooShort();
  const rough = walledStrip(film, straight, { ...PASSES[0], rowMm: ROW_MM, px, range });
  if (!rough) return tooShort();
  const fine = walledStrip(film, bowedStations(smoothedMiddles(rough), 15), { ...PASSES[1], rowMm: ROW_MM, px, range });
  if (!fine) return tooShort();
  const walls = placedWalls(fine, px);
  const every = Math.max(1, Math.round((search.everyMm ?? 12) / ROW_MM));
  const rows = Array.from({ length: Math.floor((straight.length - 1) / every) + 1 }, (_, i) => i * every);
  const levels = rows.map((row) => levelAt(fine, walls, { row, px }));
  const points = levels.flatMap(({ level: l }) =>
    [l.outerA, l.innerA, l.innerB, l.outerB].map((p) => point('film', p.x, p.y)),
  );
  return ok({ ...trustOf(levels), points, levels });
}

const tooShort = () =>
  cannot({
    code: 'shaft-too-short',
    message: 'The line along the shaft is too short, or too near to the edge of the film, to follow its walls.',
    field: 'far',
    mend: 'Point at two places in the canal at least 20 mm apart.',
  });

type Walls = Readonly<Record<keyof CanalLevel, PlacedWall>>;

function placedWalls({ strip, paths }: WalledStrip, px: number): Walls {
  const perMm = px / strip.stepPx;
  const wall = (side: 0 | 1, which: 'inner' | 'outer'): PlacedWall => {
    const sign = SIDES[side];
    const rise = which === 'inner' ? sign : sign === 1 ? -1 : 1;
    return placedWall(strip, { columns: [...paths[side][which]].map((c) => sign * c), rise, side: sign }, { perMm });
  };
  return { outerA: wall(0, 'outer'), innerA: wall(0, 'inner'), innerB: wall(1, 'inner'), outerB: wall(1, 'outer') };
}

const NAMES = {
  outerA: 'outer wall, side A',
  innerA: 'inner wall, side A',
  innerB: 'inner wall, side B',
  outerB: 'outer wall, side B',
} as const;

function levelAt(
  { strip, steepest }: WalledStrip,
  walls: Walls,
  { row, px }: { row: number; px: number },
): ProposedLevel {
  const half = (strip.width - 1) / 2;
  const place = (w: PlacedWall) => {
    const { x, y } = onStrip(strip, row, half + (w.at[row] ?? 0));
    return { x, y };
  };
  const apart = (a: PlacedWall, b: PlacedWall) => ((b.at[row] ?? 0) - (a.at[row] ?? 0)) * strip.stepPx;
  const { outerA, innerA, innerB, outerB } = walls;
  const grounds = (Object.keys(NAMES) as (keyof typeof NAMES)[]).flatMap((k) =>
    wallGrounds(walls[k], NAMES[k], { row, perMm: px / strip.stepPx }),
  );
  const steep = Math.max(...steepest.slice(Math.max(0, row - 5), row + 6));
  const metal = { says: 'no metal lies across this level', holds: ramp(steep, 1.15, 0.9) };
  const thin = Math.min(apart(outerA, innerA), apart(innerB, outerB)) / px;
  return {
    level: { innerA: place(innerA), innerB: place(innerB), outerA: place(outerA), outerB: place(outerB) },
    widthPx: apart(innerA, innerB),
    outerWidthPx: apart(outerA, outerB),
    trust: weighed([
      ...grounds,
      gentler(walls, row),
      metal,
      { says: `the thinner cortex measures about ${thin.toFixed(1)} mm`, holds: ramp(thin, 0.8, 2.2) },
    ]),
  };
}

/**
 * A ray meets less new bone at the inner wall of a tube than at the outer one, so grey rises more gently there: by the square root
 * of their radii at the least, in the films of docs/proposals.md to 0.4 to 0.9. The two edges of a bar or wire are alike.
 */
function gentler({ outerA, innerA, innerB, outerB }: Walls, row: number): Ground {
  const ratio = (inner: PlacedWall, outer: PlacedWall) =>
    (inner.steepness[row] ?? 0) / Math.max(1e-6, outer.steepness[row] ?? 0);
  const greater = Math.max(ratio(innerA, outerA), ratio(innerB, outerB));
  return {
    says: `the inner walls rise at most ${greater.toFixed(2)} times as steeply as the outer ones fall, as those of a tube do`,
    holds: ramp(greater, 1, 0.85),
  };
}

function wallGrounds(w: PlacedWall, name: string, { row, perMm }: { row: number; perMm: number }): Ground[] {
  const steep = w.overNoise[row] ?? 0;
  return [
    { says: `${name}: ${steep.toFixed(1)} times as steep as what lies beside it`, holds: ramp(steep, 1, 2.4) },
    { says: `${name}: no second wall beside it`, holds: ramp(w.rival[row] ?? 1, 1, 0.5) },
    { says: `${name}: runs on in line with its neighbours`, holds: ramp((w.stray[row] ?? 0) / perMm, 0.8, 0.2) },
  ];
}

function trustOf(levels: readonly ProposedLevel[]): Trust {
  const confidence = median(levels.map((l) => l.trust.confidence));
  const sure = levels.filter((l) => l.trust.confident).length;
  return weighed([{ says: `${sure} of ${levels.length} levels are confident`, holds: confidence }]);
}
