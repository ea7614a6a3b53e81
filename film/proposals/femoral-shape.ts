import type { FilmPoint } from './grey-film.ts';
import { type Ground, percent, ramp } from './proposal.ts';
import { alongWay, farthest, restingEdge, span, unitWay, type Way } from './support.ts';

/** What is read off the outline of a femoral component, film pixels. */
export interface FemoralShape {
  /** Where a straight edge laid on from distally touches both condyles, left then right on the film; null from the side. */
  readonly distalTangent: readonly [FilmPoint, FilmPoint] | null;
  readonly distalMost: FilmPoint;
  /** Outermost metal near the distal tangent, left then right; from the side the outermost of the whole. */
  readonly edges: readonly [FilmPoint, FilmPoint];
  readonly widthPx: number;
}

/** A femoral shape with what speaks for the whole, and for its edges besides. */
export interface FoundFemoral {
  readonly shape: FemoralShape;
  readonly grounds: readonly Ground[];
  readonly ofEdges: readonly Ground[];
}

/** How far from the tangent the edges of the condyles are looked for, as a share of the width: about 7 mm. */
const NEAR_TANGENT = 0.11;

/**
 * Reads a femoral component off its outline (PRO-5). `distally` = unit direction to the foot. Lengths and places in film pixels.
 * Null where the outline has no two sides, or nothing rests on from distally.
 */
export function femoralShape(
  outline: readonly FilmPoint[],
  { distally, view }: { distally: Way; view: 'ap' | 'lateral' },
): FoundFemoral | null {
  const right = { x: distally.y, y: -distally.x };
  const distalMost = farthest(outline, distally);
  const whole = span(outline, right);
  if (!distalMost || !whole) return null;
  if (view === 'lateral') return { shape: { distalTangent: null, distalMost, ...whole }, grounds: [], ofEdges: [] };
  const touched = restingEdge(outline, distally);
  if (!touched) return null;
  const pair = leftFirst(touched, right);
  const tangent = unitWay({ x: pair[1].x - pair[0].x, y: pair[1].y - pair[0].y });
  if (!tangent) return null;
  const normal = { x: -tangent.y, y: tangent.x };
  const level = alongWay(pair[0], normal);
  const [lower, edges, higher] = [0.75, 1, 1.25].map((k) => {
    const reach = k * NEAR_TANGENT * whole.widthPx;
    return span(
      outline.filter((p) => Math.abs(alongWay(p, normal) - level) < reach),
      tangent,
    );
  });
  if (!lower || !edges || !higher) return null;
  const moved = [lower, higher].flatMap((o) =>
    o.edges.map((p, i) => Math.abs(alongWay(p, tangent) - alongWay(edges.edges[i] ?? p, tangent))),
  );
  const loose = Math.max(...moved) / edges.widthPx;
  const apart = Math.hypot(pair[1].x - pair[0].x, pair[1].y - pair[0].y) / edges.widthPx;
  const middle = (alongWay(pair[0], tangent) + alongWay(pair[1], tangent)) / 2;
  const off =
    Math.abs(middle - (alongWay(edges.edges[0], tangent) + alongWay(edges.edges[1], tangent)) / 2) / edges.widthPx;
  return {
    shape: { distalTangent: pair, distalMost, ...edges },
    ofEdges: [
      {
        says: `looked for a quarter higher or lower, its edges move by ${(100 * loose).toFixed(1)} % of the width`,
        holds: ramp(loose, 0.022, 0.008),
      },
    ],
    grounds: [
      {
        says: `the tangent touches ${percent(apart)} of the width apart`,
        holds: Math.min(ramp(apart, 0.3, 0.45), ramp(apart, 0.95, 0.8)),
      },
      {
        says: 'it touches rounded metal at both places',
        holds: Math.min(...pair.map((p) => rounded(outline, p, { tangent, widthPx: edges.widthPx }))),
      },
      { says: `it touches evenly about the middle, ${percent(off)} of the width off`, holds: ramp(off, 0.16, 0.06) },
    ],
  };
}

/**
 * Whether the outline curves away gently to both sides of a place where the tangent touches, 0 to 1: within 7 % of the width it
 * stays within 4 % of the tangent. The end of a bar that lies across the knee does not.
 */
function rounded(
  outline: readonly FilmPoint[],
  at: FilmPoint,
  { tangent, widthPx }: { tangent: Way; widthPx: number },
): number {
  const normal = { x: -tangent.y, y: tangent.x };
  const depths = ([-1, 1] as const).map((side) => {
    const beside = outline.filter((p) => {
      const t = (side * (alongWay(p, tangent) - alongWay(at, tangent))) / widthPx;
      return t > 0.03 && t < 0.07;
    });
    return Math.min(...beside.map((p) => Math.abs(alongWay(p, normal) - alongWay(at, normal)) / widthPx), 1);
  });
  return ramp(Math.max(...depths), 0.05, 0.03);
}

const leftFirst = ([a, b]: readonly [FilmPoint, FilmPoint], right: Way): readonly [FilmPoint, FilmPoint] =>
  alongWay(a, right) <= alongWay(b, right) ? [a, b] : [b, a];
