import { heightOf, type Piece, piecesOf, riseOf } from './arc-pieces.ts';
import type { ArcTerm } from './arc-term.ts';
import { Footing } from './footing.ts';
import type { Lengths, Tied } from './settle.ts';
import { Vectors } from './vectors.ts';

/** Slopes, costs and sines below this are rounding. */
const FLAT = 1e-10;
const SAME = 1e-9;
const HALF = Math.SQRT1_2;

/**
 * Where the walk stands in a convex landscape of plane pieces: the six curves of the lengths and, for each side of the knee,
 * the largest piece of the arc. One object goes on all walks, because one is taken for thousands of constructs.
 */
export class Walker {
  private sides: readonly (readonly Piece[])[] = [];
  j = 0;
  q = 0;
  k = 0;
  /** The six curves here. */
  private readonly footing = new Footing();
  /** For each side what the arc costs here, the pieces that are the largest, and how many there are. */
  private readonly cost: number[] = [];
  private readonly top: readonly Piece[][] = [[], []];
  private readonly tops: number[] = [];
  /** Normals of the planes on which the cost bends here, and the lines in which two of them meet. */
  private readonly bends = new Vectors();
  private readonly lines = new Vectors();
  /** The way that was found last. */
  private wayJ = 0;
  private wayQ = 0;
  private wayK = 0;

  /** Begins a walk. */
  start(t: Tied, arc: ArcTerm, from: Lengths): void {
    this.j = from.j;
    this.q = from.q;
    this.k = from.k;
    this.footing.on(t, from);
    this.sides = piecesOf(arc);
    this.lookRound();
  }

  private lookRound(): void {
    const { footing, bends } = this;
    bends.clear();
    for (let i = 0; i < 6; i++) {
      if (!footing.bends(i)) continue;
      if (i < 3) bends.add(i === 0 ? 1 : 0, i === 1 ? 1 : 0, i === 2 ? 1 : 0);
      else bends.add(i === 3 ? HALF : i === 5 ? -HALF : 0, i === 3 ? 0 : HALF, i === 5 ? 0 : -HALF);
    }
    this.lookAtArc();
  }

  private lookAtArc(): void {
    const { j, q, k, bends } = this;
    for (let s = 0; s < this.sides.length; s++) {
      const pieces = this.sides[s] as readonly Piece[];
      const top = this.top[s] as Piece[];
      let most = 0;
      for (const p of pieces) most = Math.max(most, heightOf(p, j, q, k));
      this.cost[s] = most;
      let n = 0;
      for (const p of pieces) {
        if (heightOf(p, j, q, k) < most - SAME) continue;
        for (let i = 0; i < n; i++) {
          const other = top[i] as Piece;
          bends.add(other.j - p.j, other.q - p.q, other.k - p.k);
        }
        top[n++] = p;
      }
      this.tops[s] = n;
    }
  }

  /** The steepest rise of any of the largest pieces of a side along a way. */
  private steepest(side: number, j: number, q: number, k: number): number {
    const top = this.top[side] as readonly Piece[];
    const n = this.tops[side] as number;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < n; i++) most = Math.max(most, riseOf(top[i] as Piece, j, q, k));
    return most;
  }

  /** Rise of cost per unit of a way. */
  private slope(j: number, q: number, k: number): number {
    const { footing } = this;
    let sum = footing.riseOf(0, j) + footing.riseOf(1, q) + footing.riseOf(2, k);
    sum += footing.riseOf(3, j - k) + footing.riseOf(4, q - k) + footing.riseOf(5, q - j);
    for (let s = 0; s < this.sides.length; s++) sum += this.steepest(s, j, q, k);
    return sum;
  }

  /**
   * Finds a way that leads on: where the bending planes leave a freedom (no corner yet), a way along it that does not lead
   * up, because it ends at a further plane and so at a corner; else a line in which two planes meet that leads down.
   */
  findsWay(): boolean {
    this.crossBends();
    const { lines } = this;
    for (let i = 0; i < lines.count; i++)
      if (this.isFree(lines.at(i, 0), lines.at(i, 1), lines.at(i, 2)) && this.takes(i, SAME)) return true;
    if (lines.count === 0 && this.takesLoose()) return true;
    for (let i = 0; i < lines.count; i++) if (this.takes(i, -SAME)) return true;
    return false;
  }

  /** The lines in which two of the bending planes meet. */
  private crossBends(): void {
    const { bends, lines } = this;
    lines.clear();
    for (let a = 0; a < bends.count; a++)
      for (let b = a + 1; b < bends.count; b++)
        lines.add(
          bends.at(a, 1) * bends.at(b, 2) - bends.at(a, 2) * bends.at(b, 1),
          bends.at(a, 2) * bends.at(b, 0) - bends.at(a, 0) * bends.at(b, 2),
          bends.at(a, 0) * bends.at(b, 1) - bends.at(a, 1) * bends.at(b, 0),
        );
  }

  /** Whether the cost does not bend along a line. */
  private isFree(j: number, q: number, k: number): boolean {
    const { bends } = this;
    for (let i = 0; i < bends.count; i++)
      if (Math.abs(bends.at(i, 0) * j + bends.at(i, 1) * q + bends.at(i, 2) * k) >= SAME) return false;
    return true;
  }

  /** Takes a line, up or down, if it rises by less than `most`. */
  private takes(line: number, most: number): boolean {
    const { lines } = this;
    const j = lines.at(line, 0);
    const q = lines.at(line, 1);
    const k = lines.at(line, 2);
    if (this.slope(j, q, k) < most) return this.take(j, q, k);
    return this.slope(-j, -q, -k) < most && this.take(-j, -q, -k);
  }

  private take(j: number, q: number, k: number): true {
    this.wayJ = j;
    this.wayQ = q;
    this.wayK = k;
    return true;
  }

  /** One bending plane, or none: a way within it, or one of the axes. */
  private takesLoose(): boolean {
    const { bends, lines } = this;
    if (bends.count === 0) {
      lines.add(1, 0, 0);
      lines.add(0, 1, 0);
      lines.add(0, 0, 1);
    } else {
      const j = bends.at(0, 0);
      const q = bends.at(0, 1);
      const k = bends.at(0, 2);
      lines.add(0, k, -q);
      lines.add(-k, 0, j);
      lines.add(q, -j, 0);
    }
    for (let i = 0; i < lines.count; i++) if (this.takes(i, SAME)) return true;
    lines.clear();
    return false;
  }

  /** Goes on to where the cost bends. */
  walk(): void {
    const { wayJ, wayQ, wayK } = this;
    const room = this.room(wayJ, wayQ, wayK);
    this.j += room * wayJ;
    this.q += room * wayQ;
    this.k += room * wayK;
    this.footing.stand(this.j, this.q, this.k);
    this.lookRound();
  }

  /** How far a way goes before the cost bends. */
  private room(j: number, q: number, k: number): number {
    const { footing } = this;
    let room = Math.min(footing.roomOf(0, j), footing.roomOf(1, q), footing.roomOf(2, k));
    room = Math.min(room, footing.roomOf(3, j - k), footing.roomOf(4, q - k), footing.roomOf(5, q - j));
    for (let s = 0; s < this.sides.length; s++) {
      const rise = this.steepest(s, j, q, k);
      for (const p of this.sides[s] as readonly Piece[]) {
        const faster = riseOf(p, j, q, k) - rise;
        if (faster > FLAT)
          room = Math.min(room, ((this.cost[s] as number) - heightOf(p, this.j, this.q, this.k)) / faster);
      }
    }
    return room;
  }
}
