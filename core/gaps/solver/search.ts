import { CONSTRAINT_LEVELS, type ConstraintLevel } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { type Asked, type Branch, posteriorCandidates, standOf, tibialCandidates } from './candidates.ts';
import { cheapestFirst } from './choices.ts';
import { isOfKind, type Kind } from './kind.ts';
import type { OpenChoices } from './open-pull.ts';
import { augmentsOf, type Found, type FullParts, outranks, precedes, SAME_COST } from './order.ts';
import { type BranchPull, branchPull, Pull } from './pull.ts';
import { type Parts, settleParts, withArc } from './settle-parts.ts';
import type { Tables } from './tables.ts';
import { type Tension, tensionAt } from './tension.ts';
import { MOST_TENSIONS, type Quest, Visit } from './visit.ts';
import { alwaysCharged, NEVER } from './whole-parts.ts';

export type { Kind } from './kind.ts';

/** What is already known when a search begins. */
export interface Known {
  /** Constructs found before; the best of the kind is where the search starts from. */
  readonly found?: readonly Found[];
  /** Dearer constructs than this are not wanted. */
  readonly ceiling?: number;
  /** What costs no more than this will do: the search ends at the first such construct; absent = only the least will do. */
  readonly enough?: number;
  /** Tensions of constructs settled elsewhere, the oldest first; those that are met here are added. */
  readonly tensions?: Tension[];
}

const limitAt = (cost: number): number => Math.min(cost + SAME_COST, Number.MAX_VALUE);

/**
 * Branch and bound over the small tables (docs/decisions/solver.md): levels, slopes, femurs in their stances, then
 * pairs of distal and of posterior augments, then tray, insert and blocks. Every combination has two lower bounds, the
 * sum of what its parts cost at best: once with the differences at their own best, once with the differences paid at
 * the tension of the best construct so far. Only what could still beat that construct is settled exactly.
 */
export class Search implements Quest {
  readonly tables: Tables;
  private readonly kind: Kind;
  private readonly ceiling: number;
  /** A lower bound above this is not of the answer; finite, so that what a limit excludes lies above it. */
  limit: number;
  private readonly enough: number;
  private best: Found | null = null;
  private readonly tensions: Tension[];
  readonly pulls: Pull[];
  /** How many choices of parts had to be settled; the rest fell to their lower bounds. */
  settled = 0;

  constructor(tables: Tables, kind: Kind = {}, known: Known = {}) {
    this.tables = tables;
    this.kind = kind;
    this.ceiling = known.ceiling ?? NEVER;
    this.limit = limitAt(this.ceiling);
    this.enough = known.enough ?? Number.NEGATIVE_INFINITY;
    this.tensions = known.tensions ?? [];
    this.pulls = this.tensions.map((tension) => new Pull(tables, tension));
    for (const found of known.found ?? []) if (isOfKind(found, kind)) this.offer(found);
  }

  /** Whether what was asked for is found already. */
  get isDone(): boolean {
    return this.best !== null && this.best.cost <= this.enough && this.worth(this.best.cost);
  }

  /** The exact least construct of this kind, or null where none keeps the limits. */
  run(): Found | null {
    if (this.isDone) return this.best;
    for (const level of CONSTRAINT_LEVELS) {
      if (this.kind.level?.(level) === false) continue;
      for (const branch of this.branches(level)) {
        if (!this.worth(branch.least)) break;
        if (this.cannotWin(branch.least, level, 0)) continue;
        if (!this.best) this.dive(branch);
        if (this.isDone) return this.best;
        this.visit(branch);
        if (this.isDone) return this.best;
      }
    }
    return this.best && this.worth(this.best.cost) ? this.best : null;
  }

  worth(least: number): boolean {
    return least <= this.limit;
  }

  /** Whether something of this lower bound, which can at best equal the best, comes after it for its level or augments. */
  cannotWin(least: number, level: ConstraintLevel, augments: number): boolean {
    const { best } = this;
    if (!best || !this.tiesAtBest(least)) return false;
    const above = levelRank(level) - levelRank(best.level);
    return above > 0 || (above === 0 && augments > augmentsOf(best));
  }

  tiesAtBest(least: number): boolean {
    return this.best !== null && least > this.best.cost - SAME_COST;
  }

  isOutranked(parts: FullParts): boolean {
    return this.best !== null && outranks(this.best, parts, this.tables.question);
  }

  offer(found: Found): void {
    if (this.best && !precedes(found, this.best, this.tables.question)) return;
    this.best = found;
    this.limit = limitAt(Math.min(this.ceiling, found.cost));
  }

  settle(parts: Parts): Pull | null {
    this.settled++;
    const found = settleParts(parts);
    if (!found) return null;
    // Without the arc first: it can only add.
    const { arc } = parts.branch;
    const whole = this.worth(found.cost) ? withArc(found, arc) : found;
    // What costs the same as the best shows nothing new.
    const shows = Math.abs(whole.cost - Math.min(this.ceiling, this.best?.cost ?? NEVER)) > SAME_COST;
    if (this.worth(whole.cost) && isOfKind(whole, this.kind)) this.offer(whole);
    return shows ? this.learn(tensionAt(whole.tied, whole.settled, whole === found ? null : arc)) : null;
  }

  /** Keeps a tension for all that is still to come. */
  private learn(tension: Tension): Pull {
    const pull = new Pull(this.tables, tension);
    if (this.pulls.length >= MOST_TENSIONS) {
      this.pulls.shift();
      this.tensions.shift();
    }
    this.pulls.push(pull);
    this.tensions.push(tension);
    return pull;
  }

  /** Every femur at a level, in each of its stances at each slope, that could be part of a better construct; the cheapest first. */
  private branches(level: ConstraintLevel): Branch[] {
    const { tables, kind } = this;
    const always = alwaysCharged(tables.question, level);
    const found: Branch[] = [];
    if (!this.worth(always) || tables.femur.fits.length === 0) return found;
    const { all, least: leastTied } = tables.tiesAt(level);
    for (const femur of tables.femur.fits) {
      if (kind.femur?.(femur) === false) continue;
      const parts = always + tables.femur.width(femur);
      const tray = tables.tibia.leastWidth(femur, level);
      if (!this.worth(parts + leastTied + tray)) continue;
      for (const stance of tables.stances(femur, level)) {
        const stand = standOf(tables, { femur, stance, parts }, { room: this.limit - leastTied - tray, kind });
        if (!stand) continue;
        for (const ties of all) {
          const least = stand.least + ties.least;
          if (this.worth(least + tray)) found.push({ ...stand, ties, arc: tables.arc(ties, stance), least });
        }
      }
    }
    return cheapestFirst(found);
  }

  /** A first construct, so that there is something to beat: the cheapest of each choice. */
  private dive(branch: Branch): void {
    const { distals, posteriors, tibials } = this.openChoices(branch, { pulls: [], first: true });
    const cheapest = { distals: distals.slice(0, 1), posteriors: posteriors.slice(0, 1), tibials: tibials.slice(0, 1) };
    if (tibials.length > 0) new Visit(this, branch, cheapest).run();
  }

  private visit(branch: Branch): void {
    // The newest first: it is the nearest to what is asked now.
    const pulls: BranchPull[] = [];
    for (let i = this.pulls.length - 1; i >= 0; i--) {
      const under = branchPull(this.pulls[i] as Pull, branch);
      if (!under) continue;
      if (!this.worth(under.least)) return;
      pulls.push(under);
    }
    const open = this.openChoices(branch, { pulls });
    if (open.posteriors.length > 0 && open.tibials.length > 0) new Visit(this, branch, open).run();
  }

  /** What can still be part of a better construct. */
  private openChoices(branch: Branch, asked: Pick<Asked, 'pulls' | 'first'>): OpenChoices {
    const { tables, kind } = this;
    const spare = this.limit - branch.least;
    const all = { ...asked, kind, most: this.limit };
    return {
      distals: branch.distals,
      posteriors: posteriorCandidates(tables, branch, { ...all, room: spare + branch.leastPosterior }),
      tibials: tibialCandidates(tables, branch, { ...all, room: spare }),
    };
  }
}
