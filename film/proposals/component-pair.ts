import { type GreyLevels, greyLevels } from './grey-levels.ts';
import { type MetalPart, type MetalParts, metalParts, outlineOf } from './metal-parts.ts';
import type { Reduced } from './reduced.ts';
import type { Way } from './support.ts';

/** Two pieces of metal that lie one over the other, at the grey at which they were told apart. */
export interface ComponentPair {
  readonly upper: Piece;
  readonly lower: Piece;
  /** Grey from which on a pixel was taken for metal. */
  readonly from: number;
  readonly worth: number;
}

export interface Piece {
  readonly part: MetalPart;
  /** Its outer outline, pixels of the smaller film. */
  readonly outline: readonly { readonly x: number; readonly y: number }[];
  /** The slope that three quarters of the outline exceed, share of the film's range of grey a pixel. */
  readonly steep: number;
}

export interface PairSearch {
  readonly distally: Way;
  /** About where the knee is, pixels of the smaller film. */
  readonly near: Way | undefined;
}

/** The greys that are tried as the beginning of metal, as shares of the film's range. */
const TRIED = Array.from({ length: 15 }, (_, i) => 0.5 + 0.0335 * i);

/** The smallest piece that may be a component: a square of this share of the film's shorter side. */
const SMALLEST = 0.035;

/**
 * Pairs of metal pieces, best first (PRO-5). No one grey divides metal from bone on every film: dense bone may be as bright as a thin
 * tray. So each of fifteen greys of the brighter half of the histogram is tried, and the pair whose outlines are steepest all
 * round wins: too low a grey takes bone with it, whose outline is gentle, too high a grey runs inside the metal.
 * Round pieces (the ball) and pieces cut by the film's edge are no components.
 */
export function componentPairs(film: Reduced, search: PairSearch): ComponentPair[] {
  const levels = greyLevels(film);
  if (!(levels.most > levels.least)) return [];
  const found = TRIED.flatMap((share) => {
    const from = levels.least + share * (levels.most - levels.least);
    return pairsAt(film, { from, levels }, search);
  });
  return found.sort(
    (p, q) => q.worth - p.worth || p.upper.part.first - q.upper.part.first || p.lower.part.first - q.lower.part.first,
  );
}

function pairsAt(
  film: Reduced,
  { from, levels }: { from: number; levels: GreyLevels },
  search: PairSearch,
): ComponentPair[] {
  const pieces = metalParts(film, from, (SMALLEST * Math.min(film.rows, film.columns)) ** 2);
  const likely = pieces.parts.filter((p) => !isRound(p) && !touchesEdge(p, film));
  const known = new Map<MetalPart, Piece>();
  const pieceOf = (part: MetalPart): Piece => {
    const piece = known.get(part) ?? outlinedPiece(film, pieces, { part, range: levels.most - levels.least });
    known.set(part, piece);
    return piece;
  };
  return likely.flatMap((a) =>
    likely.flatMap((b) => {
      const fit = a === b ? 0 : fitOf(a, b, search);
      if (fit === 0) return [];
      const [upper, lower] = [pieceOf(a), pieceOf(b)];
      return [{ upper, lower, from, worth: fit * Math.min(upper.steep, lower.steep) }];
    }),
  );
}

function outlinedPiece(film: Reduced, pieces: MetalParts, { part, range }: { part: MetalPart; range: number }): Piece {
  const { values, columns, rows } = film;
  const outline = outlineOf(pieces, part, film);
  const slope = outline
    .filter(({ x, y }) => x > 0 && y > 0 && x < columns - 1 && y < rows - 1)
    .map(({ x, y }) => {
      const i = y * columns + x;
      return Math.hypot(
        (values[i + 1] ?? 0) - (values[i - 1] ?? 0),
        (values[i + columns] ?? 0) - (values[i - columns] ?? 0),
      );
    })
    .sort((a, b) => a - b);
  return { part, outline, steep: (slope[slope.length >> 2] ?? 0) / (2 * range) };
}

/** A disc fills 78.5 % of the square about it. */
function isRound({ pixels, x0, y0, x1, y1 }: MetalPart): boolean {
  const [w, h] = [x1 - x0 + 1, y1 - y0 + 1];
  return Math.abs(Math.log(w / h)) < 0.12 && Math.abs(pixels / (w * h) - Math.PI / 4) < 0.06;
}

const touchesEdge = ({ x0, y0, x1, y1 }: MetalPart, { columns, rows }: Reduced): boolean =>
  x0 <= 1 || y0 <= 1 || x1 >= columns - 2 || y1 >= rows - 2;

const middleOf = ({ x0, x1, y0, y1 }: MetalPart): Way => ({ x: (x0 + x1) / 2, y: (y0 + y1) / 2 });

const spanOf = ({ x0, x1, y0, y1 }: MetalPart): number => Math.max(x1 - x0, y1 - y0) + 1;

/** Share of the square over its span that a piece fills. */
const solidity = (part: MetalPart): number => part.pixels / spanOf(part) ** 2;

/** What a femoral component, and a tray with its keel, fill at least; a screw fills a tenth. */
const SOLID = { upper: 0.15, lower: 0.11 } as const;

/** How well two pieces lie as femoral component over tray: alike in span, close together, one straight over the other, and large; 0 = not at all. */
function fitOf(upper: MetalPart, lower: MetalPart, { distally, near }: PairSearch): number {
  const [a, b] = [middleOf(upper), middleOf(lower)];
  const size = Math.max(spanOf(upper), spanOf(lower));
  const alike = Math.min(spanOf(upper), spanOf(lower)) / size;
  const down = (b.x - a.x) * distally.x + (b.y - a.y) * distally.y;
  const aside = Math.abs((b.x - a.x) * -distally.y + (b.y - a.y) * distally.x);
  if (solidity(upper) < SOLID.upper || solidity(lower) < SOLID.lower) return 0;
  if (down < 0.2 * size || down > 1.5 * size || aside > 0.6 * size || alike < 0.45) return 0;
  const away = near ? Math.hypot((a.x + b.x) / 2 - near.x, (a.y + b.y) / 2 - near.y) : 0;
  return away > 1.5 * size ? 0 : Math.sqrt(alike) * (1 - 0.5 * (aside / size)) * (upper.pixels * lower.pixels) ** 0.04;
}
