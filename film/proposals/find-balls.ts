import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { point } from '@gapline/core/plane/point.ts';
import { acrossProfile, median } from './across-profile.ts';
import { circleVotes } from './circle-votes.ts';
import { type FilmPoint, type GreyFilm, refusedFilm, refusedHint, refusedSize } from './grey-film.ts';
import { type GreyLevels, greyLevels } from './grey-levels.ts';
import { type Ground, type Proposal, percent, ramp, weighed } from './proposal.ts';
import { fromReduced, type Reduced, reduced } from './reduced.ts';
import { type RimPoint, rimPoints } from './rim.ts';
import { aboutCircle, type OutlineCircle, robustCircle, turnCovered } from './robust-circle.ts';

/** A circle that may be the calibration ball; `points` are eight on its outline. */
export interface BallProposal extends Proposal {
  readonly centre: FilmPoint;
  readonly radiusPx: number;
}

export interface BallSearch {
  /** Where the ball is thought to be: only circles about this place are offered. */
  readonly near?: FilmPoint;
  /** Diameter of the ball, mm, and what a pixel measures at the detector, mm: with both, circles of another size are told apart; without, no proposal is confident. */
  readonly diameterMm?: number;
  readonly detectorMmPerPx?: number;
}

/** Magnifications that a ball may have, the range of docs/rules/scale.md. */
const MAGNIFICATION = { least: 1, most: 1.4 } as const;

/** Without a size: radius as a share of the film's shorter side, from a ball of 15 mm on a long film to 40 mm on a short one. */
const SHARE = { least: 0.011, most: 0.1 } as const;

/** Shorter side of the smaller film on which circles are looked for, pixels. */
const COARSE = 420;

const RAYS = 96;
const OFFERED = 4;

/**
 * Calibration balls on a film (PRO-2): bright circles, best first, at most four.
 * Circles are voted for by edges on a smaller film; each is then followed along 96 rays at full resolution, and the circle
 * is fitted to the rays that agree. Result: centre and radius, film pixels, sub-pixel, with the grounds of its confidence.
 * Two circles that look alike take each other's confidence away, unless the stated size tells them apart; without a stated size
 * none is confident, since a coin looks the same.
 * Refuses a film without any bright circle.
 */
export function findBalls(film: GreyFilm, search: BallSearch = {}): Outcome<readonly BallProposal[]> {
  const refused =
    refusedFilm(film) ??
    refusedSize(search.diameterMm, 'diameterMm') ??
    refusedSize(search.detectorMmPerPx, 'detectorMmPerPx') ??
    (search.near ? refusedHint(film, search.near, 'near') : null);
  if (refused) return refused;
  const radii = radiiOf(film, search);
  // A circle needs a handful of pixels across to be voted for; a large one does not need more than a few dozen.
  const coarse = Math.floor(Math.min(film.rows, film.columns) / COARSE);
  const small = reduced(film, Math.max(1, Math.min(coarse, Math.floor(radii.least / 4))));
  const shades = greyLevels(small);
  const seen = voted(small, search, { ...radii, slope: 0.04 * (shades.most - shades.least) }).flatMap((start) => {
    const ball = followed(film, start, shades.most - shades.least);
    return ball && ball.circle.radius >= 0.95 * radii.least && ball.circle.radius <= 1.05 * radii.most ? [ball] : [];
  });
  const judged = distinct(seen).map((ball) => ({ ball, grounds: groundsOf(film, ball, shades) }));
  const offered = judged
    .map((one) => withRivals(one, judged, radii.stated))
    .filter((p) => p.confidence > 0)
    .sort((a, b) => b.confidence - a.confidence || a.centre.y - b.centre.y || a.centre.x - b.centre.x)
    .slice(0, OFFERED);
  if (offered.length > 0) return ok(offered);
  return cannot({
    code: 'no-ball',
    message: 'No bright circle of the size of a calibration ball is to be seen on this film.',
    mend: 'Mark the outline of the ball by hand, or take the scale from the implant.',
  });
}

function radiiOf({ rows, columns }: GreyFilm, { diameterMm, detectorMmPerPx }: BallSearch) {
  if (diameterMm && detectorMmPerPx) {
    const r = diameterMm / 2 / detectorMmPerPx;
    return { least: MAGNIFICATION.least * r, most: MAGNIFICATION.most * r, stated: true };
  }
  const side = Math.min(rows, columns);
  return { least: Math.max(4, SHARE.least * side), most: SHARE.most * side, stated: false };
}

/** Starts for the search at full resolution. */
function voted(small: Reduced, { near }: BallSearch, radii: { least: number; most: number; slope: number }) {
  const { factor } = small;
  const r = { least: Math.max(2, radii.least / factor), most: radii.most / factor };
  const reach = near ? 3 * r.most : Number.POSITIVE_INFINITY;
  const [nx, ny] = [(near?.x ?? 0) / factor, (near?.y ?? 0) / factor];
  const window = {
    x0: Math.max(0, Math.floor(nx - reach)),
    y0: Math.max(0, Math.floor(ny - reach)),
    x1: nx + reach,
    y1: ny + reach,
  };
  return circleVotes(small, { ...r, window, slope: radii.slope, count: 10 })
    .map((c) => ({
      centre: point('film', fromReduced(c.x, factor), fromReduced(c.y, factor)),
      radius: c.radius * factor,
    }))
    .filter((c) => !near || Math.hypot(c.centre.x - near.x, c.centre.y - near.y) < 1.5 * c.radius);
}

interface Followed {
  readonly circle: OutlineCircle;
  readonly rim: readonly RimPoint[];
}

const toleranceOf = (radius: number): number => Math.max(0.75, 0.012 * radius);

/** The circle of a start at full resolution: first looked for widely, then closely. */
function followed(film: GreyFilm, start: { centre: FilmPoint; radius: number }, range: number): Followed | null {
  let circle: { centre: FilmPoint; radius: number } | null = start;
  let last: Followed | null = null;
  for (const share of [0.22, 0.1, 0.06]) {
    const { centre, radius }: { centre: FilmPoint; radius: number } = circle;
    const reachPx = Math.max(3, share * radius);
    const sigmaPx = Math.min(1.5, Math.max(0.7, 0.02 * radius));
    const rim = rimPoints(film, { centre, radius, rays: RAYS, reachPx, sigmaPx, range });
    const loose = share > 0.1 ? 3 : 1;
    const fit = robustCircle(
      rim.map((p) => p.at),
      circle,
      loose * toleranceOf(radius),
    );
    if (!fit) return null;
    last = { circle: fit, rim };
    circle = fit;
  }
  return last;
}

/** Circles found from two starts are one; the one with more of its outline stays. */
function distinct(found: readonly Followed[]): Followed[] {
  const kept: Followed[] = [];
  for (const f of found.toSorted((a, b) => b.circle.kept.length - a.circle.kept.length))
    if (
      kept.every(
        ({ circle: k }) =>
          Math.hypot(k.centre.x - f.circle.centre.x, k.centre.y - f.circle.centre.y) >
          0.5 * Math.max(k.radius, f.circle.radius),
      )
    )
      kept.push(f);
  return kept;
}

function groundsOf(film: GreyFilm, { circle, rim }: Followed, { least, most }: GreyLevels): Ground[] {
  const { centre, radius } = circle;
  const covered = turnCovered(circle.kept, centre, 48);
  const inside: number[] = [];
  const step: number[] = [];
  for (let k = 0; k < 24; k++) {
    const a = (2 * Math.PI * k) / 24;
    const line = { x: centre.x, y: centre.y, dx: Math.cos(a), dy: Math.sin(a), step: radius / 20, halfWidth: 0 };
    const profile = acrossProfile(film, { ...line, from: 0, to: 1.25 * radius });
    const [middle, near, beyond] = [profile[4] ?? 0, profile[16] ?? 0, profile[23] ?? 0];
    inside.push(middle, near);
    step.push(near - beyond);
  }
  const level = median(inside);
  const brightness = (level - least) / Math.max(1, most - least);
  const spread = median(inside.map((v) => Math.abs(v - level))) / Math.max(1, most - least);
  const evenFall = rim.length > 0 ? median(rim.map((p) => p.fall)) / (most - least) : 0;
  return [
    { says: `${percent(covered)} of its outline lie on one circle`, holds: ramp(covered, 0.45, 0.95) },
    {
      says: `the outline strays from the circle by ${circle.rms.toFixed(2)} px`,
      holds: ramp(circle.rms / radius, 0.014, 0.004),
    },
    { says: `inside it is as bright as metal (${percent(brightness)})`, holds: ramp(brightness, 0.5, 0.85) },
    { says: 'inside it is evenly bright', holds: ramp(spread, 0.12, 0.03) },
    { says: 'its edge is sharp', holds: ramp(evenFall * radius, 0.4, 1.6) },
    {
      says: 'it is brighter than all that lies about it',
      holds: ramp(Math.min(...step) / Math.max(1, most - least), 0, 0.06),
    },
  ];
}

/** What another circle that looks alike takes away. */
function withRivals(
  one: { ball: Followed; grounds: readonly Ground[] },
  all: readonly { ball: Followed; grounds: readonly Ground[] }[],
  sized: boolean,
): BallProposal {
  const own = weighed(one.grounds).confidence;
  const rival = Math.max(0, ...all.filter((a) => a !== one).map((a) => weighed(a.grounds).confidence));
  const alone: Ground =
    rival > 0.5 * own
      ? { says: 'another circle on the film looks much alike', holds: sized ? 0.6 : 0.5 }
      : { says: 'no other circle on the film looks alike', holds: ramp(rival / Math.max(own, 1e-9), 0.8, 0.3) };
  const { centre, radius } = one.ball.circle;
  // A coin is as round and as bright: only its size tells it from a ball.
  const size: Ground = sized
    ? { says: 'its size is that of the ball as a film enlarges it', holds: 1 }
    : {
        says: 'its size could not be judged, since the diameter or the spacing at the detector is not known',
        holds: 0.75,
      };
  return { ...weighed([...one.grounds, alone, size]), centre, radiusPx: radius, points: aboutCircle(centre, radius) };
}
