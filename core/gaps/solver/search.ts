import { CONSTRAINT_LEVELS, type ConstraintLevel } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { type Branch, posteriorCandidates, standOf, tibialCandidates } from './candidates.ts';
import { cheapestFirst } from './choices.ts';
import { isOfKind, type Kind } from './kind.ts';
import { augmentsOf, type Found, type FullParts, outranks, precedes, SAME_COST } from './order.ts';
import { femoralPull } from './pull.ts';
import type { Tables } from './tables.ts';
import type { Tension } from './tension.ts';
import type { Ties } from './ties.ts';
import { type Quest, Visit } from './visit.ts';
import { alwaysCharged, NEVER } from './whole-parts.ts';

export type { Kind } from './kind.ts';

/** What is already known when a search begins. */
export interface Known {
  /** Constructs found before; the best of the kind is where the search starts from. */
  readonly found?: readonly Found[];
  /** Dearer constructs than this are not wanted. */
  readonly ceiling?: number;
  /** Whether any construct will do: the search ends at the first. */
  readonly anyWillDo?: boolean;
  /** Tensions of constructs settled elsewhere, the newest first; those that are met here are added. */
  readonly tensions?: Tension[];
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
  private readonly anyWillDo: boolean;
  private best: Found | null = null;
  readonly tensions: Tension[];
  /** How many choices of parts had to be settled; the rest fell to their lower bounds. */
  settled = 0;

  constructor(tables: Tables, kind: Kind = {}, known: Known = {}) {
    this.tables = tables;
    this.kind = kind;
    this.ceiling = known.ceiling ?? NEVER;
    this.anyWillDo = known.anyWillDo === true;
    this.tensions = known.tensions ?? [];
    for (const found of known.found ?? []) if (isOfKind(found, kind)) this.offer(found);
  }

  /** Whether what was asked for is found already. */
  get isDone(): boolean {
    return this.anyWillDo && this.best !== null && this.worth(this.best.cost);
  }

  /** The exact least construct of this kind, or null where none keeps the limits. */
  run(): Found | null {
    if (this.isDone) return this.best;
    const { slopeDeg: slopes } = this.tables.question.prepared.catalogue.limits;
    for (const level of CONSTRAINT_LEVELS) {
      if (this.kind.level?.(level) === false || !this.worth(alwaysCharged(this.tables.question, level))) continue;
      const ties = slopes.flatMap((slopeDeg) => this.tables.ties(level, slopeDeg) ?? []);
      for (const branch of cheapestFirst(this.branches(level, ties))) {
        if (!this.worth(branch.least)) break;
        if (this.cannotWin(branch.least, { level, augments: 0 })) continue;
        if (!this.best) this.dive(branch);
        if (this.isDone) return this.best;
        this.visit(branch);
        if (this.isDone) return this.best;
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

  /** Every femur in each of its stances at each slope that could be part of a better construct. */
  private branches(level: ConstraintLevel, ties: readonly Ties[]): Branch[] {
    const { tables, kind } = this;
    const { prepared, state } = tables.question;
    const always = alwaysCharged(tables.question, level);
    const leastTied = Math.min(...ties.map((t) => t.least));
    const found: Branch[] = [];
    for (const femur of prepared.femurs[state.side]) {
      const parts = always + tables.femurWidth(femur);
      if (kind.femur?.(femur) === false || !this.worth(parts + leastTied)) continue;
      for (const stance of tables.stances(femur, level)) {
        const stand = standOf(tables, { femur, stance, parts }, { room: this.room(leastTied), kind });
        if (stand) for (const t of ties) found.push({ ...stand, ties: t, least: stand.least + t.least });
      }
    }
    return found;
  }

  /** A first construct, so that there is something to beat: the cheapest of each choice. */
  private dive(branch: Branch): void {
    const { tables, kind } = this;
    const spare = this.room(branch.least);
    const tibials = tibialCandidates(tables, branch, { room: spare, kind, first: true, pulled: [] });
    if (tibials.length === 0) return;
    const posteriors = posteriorCandidates(tables, branch, { room: spare + branch.leastPosterior, kind, first: true });
    const distals = branch.distals.slice(0, 1);
    const arc = tables.arc(branch.ties, branch.stance);
    new Visit(this, branch, { ties: branch.ties, arc, distals, posteriors, tibials }).run([]);
  }

  private visit(branch: Branch): void {
    const { tables, kind } = this;
    const { ties, stance, distals } = branch;
    const room = this.room(branch.least - branch.leastPosterior);
    const posteriors = posteriorCandidates(tables, branch, { room, kind, first: false });
    const femoral = { ties, arc: tables.arc(ties, stance), distals, posteriors };
    const pulls = this.tensions.flatMap((tension) => femoralPull(femoral, tension) ?? []);
    // What the tibia may cost under each tension, whatever stands on the femur.
    const pulled = pulls.map((p) => ({
      price: p.priceOfK,
      room: this.room(branch.parts + stance.least + p.beyond + p.leastDistal + p.leastPosterior),
    }));
    const tibials = tibialCandidates(tables, branch, { room: this.room(branch.least), kind, first: false, pulled });
    if (tibials.length > 0) new Visit(this, branch, { ...femoral, tibials }).run(pulls);
  }
}
