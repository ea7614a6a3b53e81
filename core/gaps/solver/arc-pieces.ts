import type { ArcTerm } from './arc-term.ts';

/** A plane piece of the arc on one side of the knee: `cost = j J + q q + k K + rest`. */
export interface Piece {
  readonly j: number;
  readonly q: number;
  readonly k: number;
  readonly rest: number;
}

const NOTHING: Piece = { j: 0, q: 0, k: 0, rest: 0 };

/** What each side of the arc costs: the largest of its pieces. */
export function piecesOf(arc: ArcTerm): readonly (readonly Piece[])[] {
  arc.pieces ??= arc.sides.map((lines) => piecesOfSide(lines, arc.weight));
  return arc.pieces;
}

function piecesOfSide(lines: ArcTerm['sides'][number], { weight: w, free: [low, high] }: ArcTerm['weight']): Piece[] {
  const pieces = [NOTHING];
  for (const { cos, sin, rest } of lines) {
    pieces.push({ j: w * cos, q: w * sin, k: -w, rest: w * (rest - high) });
    pieces.push({ j: -w * cos, q: -w * sin, k: w, rest: w * (low - rest) });
  }
  return pieces;
}

/** What a piece costs at a point. */
export const heightOf = (p: Piece, j: number, q: number, k: number): number => p.j * j + p.q * q + p.k * k + p.rest;

/** How a piece rises along a way. */
export const riseOf = (p: Piece, j: number, q: number, k: number): number => p.j * j + p.q * q + p.k * k;
