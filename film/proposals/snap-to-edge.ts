import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { point } from '@gapline/core/plane/point.ts';
import { acrossProfile, type Crest, crests, median, slopes } from './across-profile.ts';
import { trueEdge } from './blurred-edge.ts';
import { type FilmPoint, type GreyFilm, onFilm, refusedFilm, refusedHint, refusedSize, valueAt } from './grey-film.ts';
import { greyRange } from './grey-range.ts';
import { METAL_CLIMB } from './metal-climb.ts';
import { type Ground, type Proposal, ramp, weighed } from './proposal.ts';

/** What meets at an edge, the brighter first. */
export type EdgeKind = 'metal-bone' | 'bone-soft-tissue';

/** An edge near a point; `points` holds the one place. */
export interface EdgeProposal extends Proposal {
  readonly at: FilmPoint;
  /** Unit direction across the edge, towards its brighter side. */
  readonly towardsBright: { readonly x: number; readonly y: number };
  readonly kind: EdgeKind;
  /** How far the point was moved, pixels. */
  readonly movedPx: number;
}

export interface EdgeSearch {
  readonly at: FilmPoint;
  /** How far from the point is looked, pixels; absent = 1.5 % of the film's shorter side. */
  readonly reachPx?: number;
  /** Direction across the edge where it is known, as across a shaft; absent = the steepest direction at the point. */
  readonly across?: { readonly x: number; readonly y: number };
  /** Take the edge only where grey rises along `across`. */
  readonly risingOnly?: boolean;
  /** Grey from which on a pixel is metal, where it is known, as from the components found; absent = judged by how high the edge is. */
  readonly metalFrom?: number;
  /** What is meant to meet at the edge, where it is known, as from the landmark; an edge of the other kind is offered without confidence. */
  readonly kind?: EdgeKind;
}

/** Share of the film's shorter side within which an edge is looked for. */
const REACH = 0.015;

/**
 * The edge nearest to a point (PRO-4): the steepest grey along the normal, sub-pixel, moved to where the blurred edge truly lies.
 * An edge loses by distance: at the end of the reach it counts half. Result: place and direction on the film, what meets
 * there, and confidence from the edge's height over the noise, from being alone, and from its distance.
 * Refuses a point off the film and a place without an edge.
 */
export function snapToEdge(film: GreyFilm, search: EdgeSearch): Outcome<EdgeProposal> {
  const refused =
    refusedFilm(film) ?? refusedHint(film, search.at, 'at') ?? refusedSize(search.reachPx, 'reachPx') ?? null;
  if (refused) return refused;
  const reach = search.reachPx ?? Math.max(4, REACH * Math.min(film.rows, film.columns));
  const across = unit(search.across ?? steepest(film, search.at, reach));
  if (!across) return noEdge();
  const edge = edgeAlong(film, { at: search.at, across, reach, risingOnly: search.risingOnly ?? false });
  if (!edge || !onFilm(film, edge.at)) return noEdge();
  const turn = edge.rising ? 1 : -1;
  const towardsBright = { x: turn * across.x, y: turn * across.y };
  const metal = search.metalFrom === undefined ? edge.climb >= METAL_CLIMB : edge.bright >= search.metalFrom;
  const kind: EdgeKind = metal ? 'metal-bone' : 'bone-soft-tissue';
  const trust = weighed([...groundsOf(edge, reach), ...asMeant(kind, search.kind)]);
  return ok({ ...trust, points: [edge.at], at: edge.at, towardsBright, kind, movedPx: Math.abs(edge.shift) });
}

const WORDS: Readonly<Record<EdgeKind, string>> = { 'metal-bone': 'of metal', 'bone-soft-tissue': 'of bone' };

const asMeant = (found: EdgeKind, meant: EdgeKind | undefined): Ground[] => {
  if (meant === undefined) return [];
  if (meant === found) return [{ says: `the edge is ${WORDS[found]}, as is meant`, holds: 1 }];
  return [{ says: `the edge is ${WORDS[found]}, and one ${WORDS[meant]} is meant`, holds: 0.3 }];
};

const noEdge = () =>
  cannot({
    code: 'no-edge',
    message: 'There is no edge near this place.',
    field: 'at',
    mend: 'Place the point by hand, or nearer to the edge that is meant.',
  });

function unit(v: { x: number; y: number } | null): { x: number; y: number } | null {
  const l = v ? Math.hypot(v.x, v.y) : 0;
  return v && Number.isFinite(l) && l > 0 ? { x: v.x / l, y: v.y / l } : null;
}

/** The direction in which grey changes most about a place: the first axis of the structure tensor, weighted towards the place. */
function steepest(film: GreyFilm, at: FilmPoint, reach: number): { x: number; y: number } | null {
  const step = Math.max(1, reach / 12);
  let [xx, xy, yy] = [0, 0, 0];
  for (let j = -12; j <= 12; j++)
    for (let i = -12; i <= 12; i++) {
      const w = Math.exp(-(i * i + j * j) / 50);
      const [x, y] = [at.x + i * step, at.y + j * step];
      const gx = valueAt(film, x + step, y) - valueAt(film, x - step, y);
      const gy = valueAt(film, x, y + step) - valueAt(film, x, y - step);
      xx += w * gx * gx;
      xy += w * gx * gy;
      yy += w * gy * gy;
    }
  if (!(xx + yy > 0)) return null;
  const turn = 0.5 * Math.atan2(2 * xy, xx - yy);
  return { x: Math.cos(turn), y: Math.sin(turn) };
}

interface FoundEdge {
  readonly at: FilmPoint;
  readonly shift: number;
  readonly rising: boolean;
  /** Grey on the brighter side. */
  readonly bright: number;
  /** Height of the edge as a share of the film's range of grey. */
  readonly climb: number;
  /** Height of the edge over the noise of the slope. */
  readonly overNoise: number;
  /** The next best edge over this one. */
  readonly rival: number;
}

/** Times the noise that make an edge clear. */
const CLEAR = 8;

/** Blur before the slope is taken, and where the plateaus beside the edge are read, pixels. */
const SIGMA = 1.2;
const PLATEAU = 4;

function edgeAlong(
  film: GreyFilm,
  s: { at: FilmPoint; across: { x: number; y: number }; reach: number; risingOnly: boolean },
): FoundEdge | null {
  const step = 0.5;
  const margin = PLATEAU + 2;
  const from = -s.reach - margin;
  const line = { x: s.at.x, y: s.at.y, dx: s.across.x, dy: s.across.y, from, to: -from, step };
  const profile = acrossProfile(film, { ...line, halfWidth: Math.min(6, Math.max(1, s.reach / 4)) });
  const slope = slopes(profile, SIGMA / step);
  const found = [true, false].flatMap((rising) =>
    s.risingOnly && !rising
      ? []
      : crests(rising ? slope : slope.map((v) => -v)).map((c) => ({ ...c, rising, shift: from + c.at * step })),
  );
  const within = found.filter((c) => Math.abs(c.shift) <= s.reach);
  const worth = (c: Crest & { shift: number }) => c.height * (1 - 0.5 * (Math.abs(c.shift) / s.reach));
  within.sort((a, b) => worth(b) - worth(a) || a.shift - b.shift);
  const best = within[0];
  if (!best) return null;
  const climbing = best.rising ? profile : profile.toReversed();
  const crest = best.rising ? best.at : profile.length - 1 - best.at;
  const range = greyRange(film);
  const placed = trueEdge(climbing, crest, { plateau: PLATEAU / step, range });
  const sample = best.rising ? placed : profile.length - 1 - placed;
  const shift = from + sample * step;
  const beside = (samples: number) =>
    climbing[Math.min(climbing.length - 1, Math.max(0, Math.round(crest + samples)))] ?? 0;
  const [dark, bright] = [beside(-PLATEAU / step), beside(PLATEAU / step)];
  const noise = 1.4826 * median([...slope].map(Math.abs)) + 1e-6 * Math.max(1, range);
  return {
    at: point('film', s.at.x + shift * s.across.x, s.at.y + shift * s.across.y),
    shift,
    rising: best.rising,
    bright,
    climb: range > 0 ? (bright - dark) / range : 0,
    overNoise: best.height / noise,
    // Beside metal a clear edge of bone is faint; so a rival is measured against no more than a clear edge.
    rival: within[1] ? worth(within[1]) / Math.min(worth(best), CLEAR * noise) : 0,
  };
}

const groundsOf = (e: FoundEdge, reach: number): Ground[] => [
  {
    says: `the edge is ${e.overNoise.toFixed(1)} times as steep as what lies about it`,
    holds: ramp(e.overNoise, 2, 6),
  },
  { says: 'no second edge within reach comes near it', holds: ramp(e.rival, 0.75, 0.35) },
  {
    says: `it lies ${Math.abs(e.shift).toFixed(1)} px from the point`,
    holds: ramp(Math.abs(e.shift) / reach, 1, 0.45),
  },
];
