import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { ArcTerm } from './arc-term.ts';
import type { Branch, TibialCandidate } from './candidates.ts';
import type { Behind, Pair } from './choices.ts';
import { leastAt } from './curve.ts';
import { leastPosterior } from './least-posterior.ts';
import { leastSeat } from './least-seat.ts';
import type { Bearing, PreparedFemur, PreparedTray } from './prepared.ts';
import type { Lengths } from './settle.ts';
import type { Parts } from './settle-parts.ts';
import type { Tables } from './tables.ts';
import { leastBeyond, pricesAt, type Tension } from './tension.ts';
import type { Ties } from './ties.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER } from './whole-parts.ts';

/** Lower bounds of a table of pairs: each by its place, and the least without augments, with augments, and of all. */
export interface PairBounds {
  readonly each: readonly number[];
  readonly plain: number;
  readonly augmented: number;
  readonly least: number;
}

/**
 * Lower bounds for one bone state when all that ties the lengths is paid at one tension: then the three lengths part, and
 * each choice costs what its own curve costs at best less what its length earns. Worked out when asked for and kept,
 * because all branches share them.
 */
export class Pull {
  /** What one mm of each length earns; negative = it costs. */
  readonly earns: Lengths;
  readonly tension: Tension;
  private readonly tables: Tables;
  private readonly distalTable: PairBounds[] = [];
  private readonly blockTable: PairBounds[] = [];
  private readonly posteriorTable: number[] = [];
  private lastTies: Ties | null = null;
  private lastArc: ArcTerm | null = null;
  private lastBeyond = 0;
  private readonly bearingTable: number[] = [];
  private readonly seatTable: number[] = [];

  constructor(tables: Tables, tension: Tension) {
    this.tables = tables;
    this.tension = tension;
    this.earns = pricesAt(tension);
  }

  /** What ties the lengths beyond the tension, at best; minus infinity where it is steeper than the ties are. */
  beyond(ties: Ties, arc: ArcTerm | null): number {
    if (this.lastTies !== ties || this.lastArc !== arc) {
      this.lastTies = ties;
      this.lastArc = arc;
      this.lastBeyond = leastBeyond(ties, arc, this.tension);
    }
    return this.lastBeyond;
  }

  /** Least of any posterior augments and coupler of a femur; infinite where their limits leave none. */
  posteriors(behind: Behind): number {
    const { place } = behind;
    this.posteriorTable[place] ??= leastPosterior(behind, this.earns.q);
    return this.posteriorTable[place];
  }

  /** Pairs of distal augments on a femur. */
  distals(femur: PreparedFemur): PairBounds {
    const { distalTable } = femur;
    this.distalTable[distalTable] ??= boundsOf(this.tables.femur.distalPairs(femur), this.earns.j);
    return this.distalTable[distalTable];
  }

  /** Pairs of blocks under a tray, along U. */
  blocks(tray: PreparedTray): PairBounds {
    const { blockTable } = tray;
    this.blockTable[blockTable] ??= boundsOf(this.tables.tibia.blocks(tray), this.earns.k);
    return this.blockTable[blockTable];
  }

  /** Least of any tray, insert and blocks that join a femur, the joint line of the tibia left out, which can only add. */
  tibials(femur: PreparedFemur, level: ConstraintLevel): number {
    const { table } = femur.bearings[level];
    this.bearingTable[table] ??= this.leastTibial(this.tables.tibia.bearings(femur, level), level);
    return this.bearingTable[table];
  }

  private leastTibial(bearings: readonly Bearing[], level: ConstraintLevel): number {
    let least = NEVER;
    for (const bearing of bearings) least = Math.min(least, this.held(bearing.tray, level) + this.seats(bearing));
    return least;
  }

  /** Least of any insert on a tray for its height. */
  private seats(bearing: Bearing): number {
    const { seatTable } = bearing;
    this.seatTable[seatTable] ??= leastSeat(this.tables.tibia.seats(bearing), this.earns.k);
    return this.seatTable[seatTable];
  }

  /** A full choice of parts, without the femur and what holds it; minus infinity where the tension is steeper than the ties are. */
  ofParts({ branch, distal, posterior, tibial }: Parts): number {
    const { j, q } = this.earns;
    return (
      this.beyond(branch.ties, branch.arc) +
      leastAt(distal.pair.curve, j) +
      leastOfTwo(posterior.flange.curve, posterior.pair.curve, 0, q) +
      this.ofTibial(tibial)
    );
  }

  /** Tray, insert and blocks with what holds them. */
  ofTibial({ tray, seat, pair, parts }: TibialCandidate): number {
    return parts + leastOfTwo(this.tables.tibia.lineUnder(tray), pair.curve, seat.shiftMm, this.earns.k);
  }

  /** Least of a tray with any blocks, along U, with what holds it. */
  private held(tray: PreparedTray, level: ConstraintLevel): number {
    const { plain, augmented } = this.tables.under(tray, level);
    const blocks = this.blocks(tray);
    return Math.min((plain?.cost ?? NEVER) + blocks.plain, (augmented?.cost ?? NEVER) + blocks.augmented);
  }
}

function boundsOf(pairs: readonly Pair[], price: number): PairBounds {
  const each: number[] = [];
  let plain = NEVER;
  let augmented = NEVER;
  for (const { curve, place, augments } of pairs) {
    const bound = leastAt(curve, price);
    each[place] = bound;
    if (augments === 0) plain = Math.min(plain, bound);
    else augmented = Math.min(augmented, bound);
  }
  return { each, plain, augmented, least: Math.min(plain, augmented) };
}

/** A branch under one tension: what its choices cost there at least. */
export interface BranchPull {
  readonly pull: Pull;
  /** Parts, stance, and what ties the lengths beyond the tension. */
  readonly bare: number;
  readonly distal: number;
  readonly posterior: number;
  readonly tibial: number;
  /** All of it together. */
  readonly least: number;
}

/** The bounds of a branch at a tension; null where the tension is steeper than the ties are. */
export function branchPull(pull: Pull, branch: Branch): BranchPull | null {
  const { femur, stance, parts, ties, arc } = branch;
  const bare = parts + stance.least + pull.beyond(ties, arc);
  if (bare === Number.NEGATIVE_INFINITY) return null;
  const distal = pull.distals(femur).least;
  const posterior = pull.posteriors(branch.behind);
  const tibial = pull.tibials(femur, ties.level);
  return { pull, bare, distal, posterior, tibial, least: bare + distal + posterior + tibial };
}
