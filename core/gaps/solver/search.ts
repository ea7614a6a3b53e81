import { CONSTRAINT_LEVELS, type ConstraintLevel } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { type Branch, branchOf, posteriorCandidates, tibialCandidates } from './candidates.ts';
import { cheapestFirst } from './choices.ts';
import { isOfKind, type Kind } from './kind.ts';
import { augmentsOf, type Found, type FullParts, outranks, precedes, SAME_COST } from './order.ts';
import { NEVER, type Tables } from './tables.ts';
import type { Tension } from './tension.ts';
import { type Quest, Visit } from './visit.ts';

export type { Kind } from './kind.ts';

/** What is already known when a search begins. */
export interface Known {
  /** Constructs found before; the best of the kind is where the search starts from. */
  readonly found?: readonly Found[];
  /** Dearer constructs than this are not wanted. */
  readonly ceiling?: number;
}

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
  private best: Found | null = null;
  readonly tensions: Tension[] = [];
  /** How many choices of parts had to be settled; the rest fell to their lower bounds. */
  settled = 0;

  constructor(tables: Tables, kind: Kind = {}, known: Known = {}) {
    this.tables = tables;
    this.kind = kind;
    this.ceiling = known.ceiling ?? NEVER;
    for (const found of known.found ?? []) if (isOfKind(found, kind)) this.offer(found);
  }

  /** The exact least construct of this kind, or null where none keeps the limits. */
  run(): Found | null {
    const { slopeDeg: slopes } = this.tables.question.prepared.catalogue.limits;
    for (const level of CONSTRAINT_LEVELS) {
      if (this.kind.level?.(level) === false || !this.worth(this.tables.alwaysCharged(level))) continue;
      const branches = cheapestFirst(slopes.flatMap((slopeDeg) => this.branches(level, slopeDeg)));
      for (const branch of branches) {
        if (!this.worth(branch.least)) break;
        if (this.cannotWin(branch.least, { level, augments: 0 })) continue;
        if (!this.best) this.dive(branch);
        this.visit(branch);
      }
    }
    return this.best && this.worth(this.best.cost) ? this.best : null;
  }

  /** The most that the answer may cost. */
  get most(): number {
    return Math.min(this.ceiling, this.best?.cost ?? NEVER);
  }

  worth(least: number): boolean {
    return least < NEVER && least <= this.most + SAME_COST;
  }

  /** What may still be spent on top of a cost. */
  private room(spent: number): number {
    return this.most + SAME_COST - spent;
  }

  /** Whether something of this lower bound, which can at best equal the best, comes after it for its level or augments. */
  cannotWin(least: number, has: { readonly level: ConstraintLevel; readonly augments: number }): boolean {
    const { best } = this;
    if (!best || least <= best.cost - SAME_COST) return false;
    const above = levelRank(has.level) - levelRank(best.level);
    return above > 0 || (above === 0 && has.augments > augmentsOf(best));
  }

  /** The same for a full choice of parts, by all that they decide in the order among equals. */
  cannotWinWith(least: number, parts: FullParts): boolean {
    const { best } = this;
    return best !== null && least > best.cost - SAME_COST && outranks(best, parts, this.tables.question);
  }

  offer(found: Found): void {
    if (this.best && !precedes(found, this.best, this.tables.question)) return;
    this.best = found;
  }

  /** Every femur in each of its stances that could be part of a better construct. */
  private branches(level: ConstraintLevel, slopeDeg: number): Branch[] {
    const { tables, kind } = this;
    const { prepared, state } = tables.question;
    const ties = tables.ties(level, slopeDeg);
    if (!ties) return [];
    const always = tables.alwaysCharged(level);
    return prepared.femurs[state.side].flatMap((femur) => {
      const parts = always + tables.femurWidth(femur);
      if (kind.femur?.(femur) === false || !this.worth(parts + ties.least)) return [];
      return tables.stances(femur, level).flatMap((stance) => {
        return branchOf(tables, { ties, femur, stance, parts }, { room: this.room(0), kind }) ?? [];
      });
    });
  }

  /** A first construct, so that there is something to beat: the cheapest of each choice. */
  private dive(branch: Branch): void {
    const { tables, kind } = this;
    const tibials = tibialCandidates(tables, branch, { room: NEVER, kind, first: true });
    const posteriors = posteriorCandidates(tables, branch, { room: NEVER, kind, first: true });
    const distals = branch.distals.slice(0, 1);
    new Visit(this, branch, { distals, posteriors, tibials }).run();
  }

  private visit(branch: Branch): void {
    const { tables, kind } = this;
    const tibials = tibialCandidates(tables, branch, { room: this.room(branch.least), kind, first: false });
    const [tibial] = tibials;
    if (!tibial) return;
    const least = branch.least + tibial.least;
    const room = this.room(least - branch.leastPosterior);
    const posteriors = posteriorCandidates(tables, branch, { room, kind, first: false });
    const distals = upTo(branch.distals, this.room(least - branch.leastDistal));
    new Visit(this, branch, { distals, posteriors, tibials }).run();
  }
}

/** The first choices of a list, cheapest first, that cost no more than the room. */
function upTo<T extends { readonly least: number }>(choices: readonly T[], room: number): readonly T[] {
  let n = 0;
  while (n < choices.length && (choices[n] as T).least <= room) n++;
  return n === choices.length ? choices : choices.slice(0, n);
}
