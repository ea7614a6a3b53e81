import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { fitCircle } from '@gapline/core/plane/circle.ts';
import { point } from '@gapline/core/plane/point.ts';
import { circleVotes } from './circle-votes.ts';
import { type FilmPoint, type GreyFilm, refusedFilm, refusedHint, refusedSize } from './grey-film.ts';
import { greyLevels } from './grey-levels.ts';
import { type Ground, type Proposal, percent, ramp, weighed } from './proposal.ts';
import { fromReduced, reduced, toReduced } from './reduced.ts';
import { rimPoints } from './rim.ts';
import { circleWorth, climbed, edgeSectors, OVER_CHANCE } from './rim-contrast.ts';
import { aboutCircle, type OutlineCircle, robustCircle } from './robust-circle.ts';

/** The circle of a femoral head; `points` are eight on its outline, as the landmark is kept. */
export interface HeadProposal extends Proposal {
  readonly centre: FilmPoint;
  readonly radiusPx: number;
}

export interface HeadSearch {
  /** A place in the head, not farther from its middle than its radius. */
  readonly near: FilmPoint;
  /** Millimetres a pixel, roughly; the spacing at the detector will do. Absent: the size cannot be judged, and no proposal is confident. */
  readonly mmPerPx?: number;
}

/**
 * Radius of a femoral head as it may show on a film, mm: diameters of 38 to 58 mm (means of 43 in women and 48 in men, from
 * memory), enlarged by up to 1.2.
 */
const RADIUS_MM = { least: 18, most: 35 } as const;

/** Without a scale: radius as a share of the film's shorter side. */
const SHARE = { least: 0.03, most: 0.13 } as const;

/** Radius of the smallest head on the smaller film, pixels. */
const COARSE_RADIUS = 14;

const RAYS = 180;
const SECTORS = 60;
const COARSE_GRID = { sectors: SECTORS, stepPx: 2.5 } as const;
const FINE_GRID = { sectors: SECTORS, stepPx: 1.5 } as const;

/** How many of the circles voted for are followed at full resolution. */
const FOLLOWED = 4;

/**
 * The circle of a femoral head near a place (PRO-3): voted for by edges about the place, then followed along 180 rays at full
 * resolution and fitted to the rays that agree; neck and socket fall out. Result: centre and radius in film pixels.
 * Confidence rests on how much of the outline lies on the circle, on how far the centre moves when any third of the outline
 * is left out, on the size, and on no other circle being as good.
 * Refuses a place without a circle about it.
 */
export function fitHead(film: GreyFilm, search: HeadSearch): Outcome<HeadProposal> {
  const refused = refusedFilm(film) ?? refusedHint(film, search.near, 'near') ?? refusedSize(search.mmPerPx, 'mmPerPx');
  if (refused) return refused;
  const side = Math.min(film.rows, film.columns);
  const px = search.mmPerPx ? 1 / search.mmPerPx : null;
  const radii = px
    ? { least: RADIUS_MM.least * px, most: RADIUS_MM.most * px }
    : { least: SHARE.least * side, most: SHARE.most * side };
  const seen = starts(film, search.near, radii).flatMap((start): Head[] => {
    const circle = followed(film, start);
    if (!circle || circle.radius < 0.95 * radii.least || circle.radius > 1.05 * radii.most) return [];
    const away = Math.hypot(circle.centre.x - search.near.x, circle.centre.y - search.near.y);
    return away < 1.2 * circle.radius ? [{ ...circle, covered: edgeShown(film, circle) }] : [];
  });
  seen.sort((a, b) => b.covered - a.covered);
  const best = seen[0];
  if (!best)
    return cannot({
      code: 'no-head',
      message: 'No round outline of the size of a femoral head lies about this place.',
      field: 'near',
      mend: 'Point at the middle of the head, or mark its outline by hand.',
    });
  const { centre, radius } = best;
  const trust = weighed(groundsOf(best, seen, search.mmPerPx));
  return ok({ ...trust, centre, radiusPx: radius, points: aboutCircle(centre, radius) });
}

interface Start {
  readonly centre: FilmPoint;
  readonly radius: number;
  /** Range of grey about the place. */
  readonly range: number;
  readonly worth: number;
}

function starts(film: GreyFilm, near: FilmPoint, radii: { least: number; most: number }): Start[] {
  const factor = Math.max(1, Math.floor(radii.least / COARSE_RADIUS));
  const reach = Math.ceil(2.2 * radii.most);
  const x0 = Math.max(0, Math.floor(near.x - reach));
  const y0 = Math.max(0, Math.floor(near.y - reach));
  const x1 = Math.min(film.columns, Math.ceil(near.x + reach));
  const y1 = Math.min(film.rows, Math.ceil(near.y + reach));
  const part = reduced(cut(film, { x0, y0, x1, y1 }), factor);
  const { least, most } = greyLevels(part);
  const window = { x0: 0, y0: 0, x1: part.columns, y1: part.rows };
  const r = { least: radii.least / factor, most: radii.most / factor };
  const [nx, ny] = [toReduced(near.x - x0, factor), toReduced(near.y - y0, factor)];
  return circleVotes(part, { ...r, window, slope: 0.012 * (most - least), count: 24 })
    .filter((c) => Math.hypot(c.x - nx, c.y - ny) < c.radius)
    .slice(0, 12)
    .map((c) => {
      const centre = point('film', x0 + fromReduced(c.x, factor), y0 + fromReduced(c.y, factor));
      const circle = { centre, radius: c.radius * factor };
      return { ...circle, range: most - least, worth: circleWorth(edgeSectors(film, circle, COARSE_GRID)) };
    })
    .sort((a, b) => b.worth - a.worth)
    .slice(0, FOLLOWED);
}

function cut(
  { pixels, columns }: GreyFilm,
  { x0, y0, x1, y1 }: { x0: number; y0: number; x1: number; y1: number },
): GreyFilm {
  const w = x1 - x0;
  const out = new Uint16Array(w * (y1 - y0));
  for (let y = y0; y < y1; y++) out.set(pixels.subarray(y * columns + x0, y * columns + x1), (y - y0) * w);
  return { pixels: out, rows: y1 - y0, columns: w };
}

const toleranceOf = (radius: number): number => Math.max(1, 0.015 * radius);

/** The circle at full resolution, from the sectors alone in which an edge stands over the noise. */
function followed(film: GreyFilm, start: Start): OutlineCircle | null {
  let circle: { centre: FilmPoint; radius: number } = climbed(film, start, COARSE_GRID);
  let last: OutlineCircle | null = null;
  for (let round = 0; round < 2; round++) {
    const clear = edgeSectors(film, circle, FINE_GRID);
    const { centre, radius } = circle;
    const sigmaPx = Math.min(4, Math.max(1, 0.02 * radius));
    const search = { centre, radius, rays: RAYS, reachPx: Math.max(4, 0.06 * radius), sigmaPx, range: start.range };
    const rim = rimPoints(film, search).filter(({ at }) => {
      const turn = (Math.atan2(at.y - centre.y, at.x - centre.x) / (2 * Math.PI) + 1) % 1;
      return (clear[Math.min(SECTORS - 1, Math.floor(turn * SECTORS))] ?? 0) > OVER_CHANCE;
    });
    last = robustCircle(
      rim.map((p) => p.at),
      circle,
      toleranceOf(radius),
    );
    if (!last) return null;
    circle = last;
  }
  return last;
}

interface Head extends OutlineCircle {
  /** Share of the outline on which an edge stands over the noise, 0 to 1. */
  readonly covered: number;
}

const edgeShown = (film: GreyFilm, circle: OutlineCircle): number =>
  edgeSectors(film, circle, FINE_GRID).filter((z) => z > OVER_CHANCE).length / SECTORS;

/** How far the centre moves, as a share of the radius, when each third of the outline in turn is left out: the greatest. */
function looseness(c: OutlineCircle): number {
  const turnOf = (p: FilmPoint) => Math.atan2(p.y - c.centre.y, p.x - c.centre.x) / (2 * Math.PI) + 0.5;
  const sorted = c.kept.toSorted((a, b) => turnOf(a) - turnOf(b));
  const third = Math.ceil(sorted.length / 3);
  const moved = [0, 1, 2].map((k) => {
    const fit = fitCircle(sorted.filter((_, i) => Math.floor(i / third) !== k));
    return fit.ok ? Math.hypot(fit.value.centre.x - c.centre.x, fit.value.centre.y - c.centre.y) / c.radius : 1;
  });
  return Math.max(...moved);
}

function groundsOf(best: Head, seen: readonly Head[], mmPerPx: number | undefined): Ground[] {
  const { covered } = best;
  const loose = looseness(best);
  const other = seen.find(
    (c) => Math.hypot(c.centre.x - best.centre.x, c.centre.y - best.centre.y) > 0.1 * best.radius,
  );
  const rival = other ? other.covered / covered : 0;
  return [
    { says: `${percent(covered)} of the outline stand over the noise`, holds: ramp(covered, 0.25, 0.45) },
    {
      says: `without any third of the outline the centre moves by ${(100 * loose).toFixed(1)} % of the radius`,
      holds: ramp(loose, 0.12, 0.04),
    },
    {
      says: `the outline strays from the circle by ${best.rms.toFixed(2)} px`,
      holds: ramp(best.rms / best.radius, 0.015, 0.007),
    },
    { says: 'no other circle hereabouts is as good', holds: ramp(rival, 1, 0.75) },
    mmPerPx
      ? {
          says: `its radius is about ${(best.radius * mmPerPx).toFixed(0)} mm`,
          holds: sizeHolds(best.radius * mmPerPx),
        }
      : { says: 'its size could not be judged, since no scale is known', holds: 0.75 },
  ];
}

const sizeHolds = (radiusMm: number): number =>
  Math.min(
    ramp(radiusMm, RADIUS_MM.least - 1, RADIUS_MM.least + 1),
    ramp(radiusMm, RADIUS_MM.most + 1, RADIUS_MM.most - 1),
  );
