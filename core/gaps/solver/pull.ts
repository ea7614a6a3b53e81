import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { ArcTerm } from './arc-term.ts';
import { type Branch, insertCost, type TibialCandidate } from './candidates.ts';
import type { Choice, Pair, PosteriorChoice } from './choices.ts';
import { leastAt } from './curve.ts';
import { type LeastPosterior, leastPosterior } from './least-posterior.ts';
import type { Bearing, PreparedFemur, PreparedTray, Seat } from './prepare.ts';
import { remember, rememberAt } from './remember.ts';
import type { Lengths } from './settle.ts';
import type { Tables } from './tables.ts';
import { leastBeyond, pricesAt, type Tension } from './tension.ts';
import type { Ties } from './ties.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER } from './whole-parts.ts';

/** Lower bounds of a table of pairs, each by its place; the cheapest without augments and with, and what they cost. */
export interface PairBounds {
  readonly each: readonly number[];
  readonly plain: LeastPair;
  readonly augmented: LeastPair;
  readonly least: LeastPair;
}

interface LeastPair {
  readonly pair: Pair | null;
  readonly cost: number;
}

/** The cheapest tibia. */
interface LeastTibial {
  readonly least: number;
  readonly tray: PreparedTray;
  readonly seat: Seat;
  readonly pair: Pair;
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
  private readonly posteriorTable = new Map<Branch['flanges'], LeastPosterior | null>();
  private lastTies: Ties | null = null;
  private lastArc: ArcTerm | null = null;
  private lastBeyond = 0;
  private readonly bearingTable = new Map<readonly Bearing[], LeastTibial | null>();

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

  /** The cheapest posterior augments and coupler of a femur; null where their limits leave none. */
  posterior({ flanges, condyles }: Pick<Branch, 'flanges' | 'condyles'>): LeastPosterior | null {
    return remember(this.posteriorTable, flanges, () => leastPosterior({ flanges, condyles }, this.earns.q));
  }

  /** Pairs of distal augments on a femur. */
  distals(femur: PreparedFemur): PairBounds {
    const pairs = () => this.tables.distal(femur).map((choice) => choice.pair);
    return rememberAt(this.distalTable, femur.distalTable, () => boundsOf(pairs(), this.earns.j));
  }

  /** Pairs of blocks under a tray, along U. */
  blocks(tray: PreparedTray): PairBounds {
    return rememberAt(this.blockTable, tray.blockTable, () => boundsOf(this.tables.blocks(tray), this.earns.k));
  }

  /** Cheapest tray, insert and blocks that join a femur, the joint line of the tibia left out, which can only add; null = none. */
  tibials(femur: PreparedFemur, level: ConstraintLevel): LeastTibial | null {
    const bearings = femur.bearings[level];
    return remember(this.bearingTable, bearings, () => {
      const { tables, earns } = this;
      const { prices, bounds } = tables.question;
      let found: LeastTibial | null = null;
      for (const { tray, seats } of bearings) {
        if (tables.trayWidth(tray) === NEVER) continue;
        const holds = tables.under(tray, level);
        const blocks = this.blocks(tray);
        const plain = (holds.plain?.cost ?? NEVER) + blocks.plain.cost;
        const augmented = (holds.augmented?.cost ?? NEVER) + blocks.augmented.cost;
        const held = Math.min(plain, augmented);
        const { pair } = plain <= augmented ? blocks.plain : blocks.augmented;
        if (!pair || !(held < NEVER)) continue;
        for (const seat of seats) {
          if (seat.insert.leastPolyethyleneMm < bounds.leastPolyethyleneMm) continue;
          const least = held + insertCost(seat, prices) - earns.k * seat.shiftMm;
          if (!found || least < found.least) found = { least, tray, seat, pair };
        }
      }
      return found;
    });
  }
}

function boundsOf(pairs: readonly Pair[], price: number): PairBounds {
  const each: number[] = [];
  let plain: LeastPair = { pair: null, cost: NEVER };
  let augmented = plain;
  for (const pair of pairs) {
    const cost = leastAt(pair.curve, price);
    each[pair.place] = cost;
    if (pair.augments === 0) plain = { pair, cost };
    else if (cost < augmented.cost) augmented = { pair, cost };
  }
  return { each, plain, augmented, least: plain.cost <= augmented.cost ? plain : augmented };
}

/** A branch under one tension: what its choices cost there at least. */
export interface BranchPull {
  readonly pull: Pull;
  readonly distal: LeastPair;
  readonly posterior: LeastPosterior;
  readonly tibial: LeastTibial;
  /** All of the branch together. */
  readonly least: number;
}

/** The bounds of a branch at a tension; null where the tension is steeper than the ties are, or a limit leaves nothing. */
export function branchPull(pull: Pull, branch: Branch): BranchPull | null {
  const { femur, stance, parts, ties, arc } = branch;
  const bare = parts + stance.least + pull.beyond(ties, arc);
  const distal = pull.distals(femur).least;
  const tibial = pull.tibials(femur, ties.level);
  const posterior = pull.posterior(branch);
  if (bare === Number.NEGATIVE_INFINITY || !tibial || !posterior) return null;
  return { pull, distal, posterior, tibial, least: bare + distal.cost + posterior.least + tibial.least };
}

/** The choices of one branch that can still be part of a better construct, each list cheapest first. */
export interface OpenChoices {
  readonly distals: readonly Choice[];
  readonly posteriors: readonly PosteriorChoice[];
  readonly tibials: readonly TibialCandidate[];
}

/** Lower bounds of the open choices at one tension, in their order. */
export interface OpenPull {
  readonly bare: number;
  readonly distals: readonly number[];
  readonly posteriors: readonly number[];
  readonly tibials: readonly number[];
  readonly leastDistal: number;
  readonly leastPosterior: number;
  readonly leastTibial: number;
}

const leastOf = (bounds: readonly number[]): number => {
  let least = NEVER;
  for (let i = 0; i < bounds.length; i++) if ((bounds[i] as number) < least) least = bounds[i] as number;
  return least;
};

/** The bounds of the choices that are open; null where the tension is steeper than the ties are. */
export function openPull(pull: Pull, branch: Branch, open: OpenChoices): OpenPull | null {
  const bare = branch.parts + branch.stance.least + pull.beyond(branch.ties, branch.arc);
  if (bare === Number.NEGATIVE_INFINITY) return null;
  const { q, k } = pull.earns;
  const ofPairs = pull.distals(branch.femur).each;
  const distals = open.distals.map(({ pair }) => ofPairs[pair.place] as number);
  const posteriors = open.posteriors.map(({ flange, pair }) => leastOfTwo(flange.curve, pair.curve, 0, q));
  const tibials = open.tibials.map(
    ({ parts, choice: { line, pair, shiftMm } }) => parts + leastOfTwo(line, pair.curve, shiftMm, k),
  );
  return {
    bare,
    distals,
    posteriors,
    tibials,
    leastDistal: leastOf(distals),
    leastPosterior: leastOf(posteriors),
    leastTibial: leastOf(tibials),
  };
}
