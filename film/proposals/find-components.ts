import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { type ComponentPair, componentPairs, type Piece } from './component-pair.ts';
import { type FemoralShape, type FoundFemoral, femoralShape } from './femoral-shape.ts';
import { type FilmPoint, type GreyFilm, refusedFilm, refusedHint } from './grey-film.ts';
import { greyLevels } from './grey-levels.ts';
import type { MetalPart } from './metal-parts.ts';
import { type Ground, type Proposal, percent, ramp, type Trust, weighed } from './proposal.ts';
import { reduced } from './reduced.ts';
import { type SharpOutline, sharpOutline } from './sharp-outline.ts';
import { unitWay, type Way } from './support.ts';
import { type FoundTray, type TrayShape, trayShape } from './tray-shape.ts';

/** The femoral component; `points` are the two ends of its distal tangent on an AP film, else its distal-most point. */
export interface FemoralProposal extends Proposal, FemoralShape {
  /** How far the two edges may be trusted: they need more than the tangent does. */
  readonly edgesTrust: Trust;
  readonly outline: readonly FilmPoint[];
}

/** The tray with its stem; `points` are the two ends of the tray line. */
export interface TrayProposal extends Proposal, TrayShape {
  readonly outline: readonly FilmPoint[];
}

export interface ComponentsProposal {
  readonly femoral: FemoralProposal;
  readonly tray: TrayProposal;
  /** Grey from which on a pixel was taken for metal, read off the histogram. */
  readonly metalFrom: number;
}

export interface ComponentSearch {
  readonly view: 'ap' | 'lateral';
  /** About where the knee is; absent = the most likely pair of pieces on the film. */
  readonly near?: FilmPoint;
  /** Direction on the film towards the foot; absent = downwards, as films are hung. */
  readonly distally?: Way;
}

/** Shorter side of the smaller film on which pieces are told apart, pixels. */
const COARSE = 500;

/**
 * Silhouettes of the metal in a knee (PRO-5): femoral component and tray with stem, told apart by place.
 * Pieces brighter than a grey of the histogram are told apart at the grey at which their outlines are steepest all round; the
 * two that lie one over the other are the components, and their outlines are followed at full resolution.
 * Result: outlines, distal tangent, tray line, edges and stem in film pixels, each with its confidence.
 * Refuses a film without such a pair, as with a native knee, or where the two shadows touch.
 */
export function findComponents(film: GreyFilm, search: ComponentSearch): Outcome<ComponentsProposal> {
  const refused = refusedFilm(film) ?? (search.near ? refusedHint(film, search.near, 'near') : null);
  if (refused) return refused;
  const distally = unitWay(search.distally ?? { x: 0, y: 1 });
  if (!distally) return refusedDirection();
  const small = reduced(film, Math.max(1, Math.floor(Math.min(film.rows, film.columns) / COARSE)));
  const near = search.near && { x: search.near.x / small.factor, y: search.near.y / small.factor };
  const pairs = componentPairs(small, { distally, near });
  const best = pairs[0];
  if (!best) return noPair();
  const rival = pairs.find((p) => apart(p.upper.part, best.upper.part) && apart(p.lower.part, best.lower.part));
  const { least, most } = greyLevels(small);
  const sharp = (piece: Piece) => sharpOutline(film, piece.outline, { factor: small.factor, range: most - least });
  const [upper, lower] = [sharp(best.upper), sharp(best.lower)];
  const femoral = femoralShape(upper.points, { distally, view: search.view });
  const tray = trayShape(lower.points, distally);
  if (!femoral || !tray) return noPair();
  const alike = widthGround(femoral.shape.widthPx, tray.shape.widthPx);
  const shared = [alone((rival?.worth ?? 0) / best.worth), alike];
  const trust = trusts({ upper, lower, best, femoral, tray, shared });
  return ok({
    femoral: {
      ...trust.femoral,
      ...femoral.shape,
      edgesTrust: trust.edges,
      points: femoral.shape.distalTangent ?? [femoral.shape.distalMost],
      outline: upper.points,
    },
    tray: { ...trust.tray, ...tray.shape, points: tray.shape.line, outline: lower.points },
    metalFrom: best.from,
  });
}

/** What speaks for each component; either needs the other to look like what it should be. */
function trusts(of: {
  readonly upper: SharpOutline;
  readonly lower: SharpOutline;
  readonly best: ComponentPair;
  readonly femoral: FoundFemoral;
  readonly tray: FoundTray;
  readonly shared: readonly Ground[];
}): { readonly femoral: Trust; readonly edges: Trust; readonly tray: Trust } {
  const trayHolds = weighed(of.tray.grounds).confidence;
  const femoralHolds = of.femoral.grounds.length > 0 ? weighed(of.femoral.grounds).confidence : 1;
  const femoral = [
    ...outlineGrounds(of.upper, of.best.upper.steep),
    ...of.femoral.grounds,
    ...of.shared,
    { says: 'what lies under it looks like a tray', holds: ramp(trayHolds, 0, 0.5) },
  ];
  const tray = [
    ...outlineGrounds(of.lower, of.best.lower.steep),
    ...of.tray.grounds,
    ...of.shared,
    { says: 'what lies over it looks like a femoral component', holds: ramp(femoralHolds, 0, 0.5) },
  ];
  return { femoral: weighed(femoral), edges: weighed([...femoral, ...of.femoral.ofEdges]), tray: weighed(tray) };
}

const refusedDirection = () =>
  cannot({
    code: 'no-direction',
    message: 'The direction towards the foot has no length.',
    field: 'distally',
    mend: 'Leave it out where the foot lies downwards.',
  });

const noPair = () =>
  cannot({
    code: 'no-components',
    message: 'No femoral component over a tray is to be seen on this film, or their shadows touch.',
    mend: 'Mark the components by hand.',
  });

const alone = (rival: number): Ground =>
  rival > 0.6
    ? { says: 'another pair of metal pieces on the film looks much alike', holds: 0.5 }
    : { says: 'no other pair of metal pieces looks alike', holds: ramp(rival, 0.8, 0.5) };

/** Boxes of two pieces that share ground are one thing seen at two greys. */
const apart = (a: MetalPart, b: MetalPart): boolean => a.x1 < b.x0 || b.x1 < a.x0 || a.y1 < b.y0 || b.y1 < a.y0;

function outlineGrounds({ found, climb }: SharpOutline, steep: number): Ground[] {
  return [
    { says: `an edge was found on ${percent(found)} of the outline`, holds: ramp(found, 0.7, 0.92) },
    { says: `the outline climbs by ${percent(climb)} of the film's grey`, holds: ramp(climb, 0.06, 0.16) },
    {
      says: `three quarters of it are steeper than ${percent(steep)} of the film's grey a pixel`,
      holds: ramp(steep, 0.008, 0.03),
    },
  ];
}

const widthGround = (femoral: number, tray: number): Ground => ({
  says: `the tray measures ${percent(tray / femoral)} of the femoral component`,
  holds: ramp(Math.abs(Math.log(tray / femoral)), 0.8, 0.5),
});
