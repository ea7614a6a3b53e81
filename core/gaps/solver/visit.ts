import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { type Branch, femoralLoad, type TibialCandidate } from './candidates.ts';
import type { Choice, PosteriorChoice } from './choices.ts';
import { highOf, lowOf, SAME_MM } from './curve.ts';
import { type OpenChoices, type OpenPull, openPull } from './open-pull.ts';
import type { FullParts } from './order.ts';
import type { Pull } from './pull.ts';
import type { Parts } from './settle-parts.ts';
import type { Tables } from './tables.ts';
import type { Ties } from './ties.ts';
import { NEVER } from './whole-parts.ts';

/** What a visit needs of the search: what is still worth while, and where finds go. */
export interface Quest {
  /** A lower bound above this is not of the answer; it falls with what is settled. */
  readonly limit: number;
  readonly tables: Tables;
  /** Bounds at the tensions of what was settled last, the oldest first. */
  readonly pulls: readonly Pull[];
  /** Settles a full choice of parts and offers it; gives the bounds at its tension, null where that shows nothing new. */
  settle(parts: Parts): Pull | null;
  /** Whether a choice of this lower bound can at best equal the best, and comes after it in the order among equals. */
  cannotWin(least: number, level: ConstraintLevel, augments: number): boolean;
  /** Whether a choice of this lower bound can at best equal the best. */
  tiesAtBest(least: number): boolean;
  /** Whether at equal cost these parts come after the best, by all that parts decide in the order among equals. */
  isOutranked(parts: FullParts): boolean;
}

/** Tensions that are kept; more cut little more and cost time on every branch. */
export const MOST_TENSIONS = 2;

/** Limits of a length, mm. */
type Span = Pick<Choice, 'low' | 'high'>;

/** Whether the limits of the difference `a - b` can be kept within the limits of both. */
const meets = (a: Span, b: Span, difference: Ties['jLessK']): boolean =>
  a.low - b.high <= highOf(difference) + SAME_MM && a.high - b.low >= lowOf(difference) - SAME_MM;

const fullParts = ({ branch, distal, posterior, tibial, choice }: Parts): FullParts => {
  const { femur, ties } = branch;
  const { level, slopeDeg } = ties;
  return { level, slopeDeg, femur, distal, posterior, tray: tibial.tray, tibial: choice };
};

/**
 * Looks through the choices of one branch: pairs of distal augments, of posterior ones with coupler, then the tibia.
 * A choice is left as soon as one of its lower bounds says that it cannot be part of a better construct.
 */
export class Visit {
  private readonly quest: Quest;
  private readonly branch: Branch;
  private readonly open: OpenChoices;
  /** In use, the oldest first, and the one that comes into use next. */
  private readonly pulls: OpenPull[] = [];
  private pending: Pull | null = null;
  /** What the tibia may cost under each of them. */
  private readonly room: number[] = [];
  /** With the differences at their own best, and the cheapest choices. */
  private readonly bare: number;
  private readonly leastPosterior: number;
  private readonly leastTibial: number;

  constructor(quest: Quest, branch: Branch, open: OpenChoices) {
    this.quest = quest;
    this.branch = branch;
    this.open = open;
    this.bare = branch.parts + branch.stance.least + branch.ties.least;
    this.leastPosterior = open.posteriors[0]?.least ?? NEVER;
    this.leastTibial = open.tibials[0]?.least ?? NEVER;
  }

  run(): void {
    for (const pull of this.quest.pulls) if (!this.pullBy(pull)) return;
    const { distals } = this.open;
    for (let d = 0; d < distals.length; d++) {
      const { least } = distals[d] as Choice;
      if (this.bare + least + this.leastPosterior + this.leastTibial > this.quest.limit) return;
      if (this.isOpen(d)) this.visitDistal(d);
    }
  }

  /** Takes a tension into use; false where it shows that the whole branch is not worth while. */
  private pullBy(tension: Pull): boolean {
    this.pending = null;
    const pull = openPull(tension, this.branch, this.open);
    if (!pull) return true;
    if (this.pulls.length >= MOST_TENSIONS) this.pulls.shift();
    this.pulls.push(pull);
    return pull.least.least <= this.quest.limit;
  }

  /** Whether a pair of distal augments is worth while under every tension in use. */
  private isOpen(d: number): boolean {
    if (this.pending) this.pullBy(this.pending);
    for (const pull of this.pulls) {
      const { bare, posterior, tibial } = pull.least;
      if (bare + pull.distal(d) + posterior + tibial > this.quest.limit) return false;
    }
    return true;
  }

  private visitDistal(d: number): void {
    const { branch, quest } = this;
    const { posteriors } = this.open;
    const distal = this.open.distals[d] as Choice;
    const { qLessJ } = branch.ties;
    const least = this.bare + distal.least;
    for (let p = 0; p < posteriors.length; p++) {
      const posterior = posteriors[p] as PosteriorChoice;
      if (least + posterior.least + this.leastTibial > quest.limit) return;
      // Of J only what the limits of q leave.
      const low = Math.max(distal.low, posterior.low - highOf(qLessJ));
      const high = Math.min(distal.high, posterior.high - lowOf(qLessJ));
      if (low > high + SAME_MM) continue;
      const held = branch.stance.held[femoralLoad(distal, posterior)]?.cost ?? NEVER;
      const more = held - branch.stance.least;
      const femoral = least + posterior.least + more;
      if (femoral + this.leastTibial > quest.limit) continue;
      const augments = distal.pair.augments + posterior.pair.augments;
      if (quest.cannotWin(femoral + this.leastTibial, branch.ties.level, augments)) continue;
      this.visitFemoral({ d, p, distal, posterior, j: { low, high }, more, least: femoral });
    }
  }

  private visitFemoral(f: {
    readonly d: number;
    readonly p: number;
    readonly distal: Choice;
    readonly posterior: PosteriorChoice;
    readonly j: Span;
    readonly more: number;
    readonly least: number;
  }): void {
    const { quest, branch } = this;
    const { tibials } = this.open;
    const { jLessK, qLessK } = branch.ties;
    let isReckoned = false;
    for (let t = 0; t < tibials.length; t++) {
      // Reckoned again after each that was settled.
      if (!isReckoned && !this.reckonRoom(f)) return;
      isReckoned = true;
      const tibial = tibials[t] as TibialCandidate;
      if (f.least + tibial.least > quest.limit) return;
      if (this.isTooDear(t)) continue;
      const choice = quest.tables.tibia.choice(tibial.pair, tibial.tray, tibial.seat);
      if (!meets(f.j, choice, jLessK) || !meets(f.posterior, choice, qLessK)) continue;
      const parts = { branch, distal: f.distal, posterior: f.posterior, tibial, choice };
      if (quest.tiesAtBest(f.least + tibial.least) && quest.isOutranked(fullParts(parts))) continue;
      this.pending = quest.settle(parts);
      isReckoned = false;
    }
  }

  /** Reckons what the tibia may cost under each tension in use; false where not even the cheapest may. */
  private reckonRoom({ d, p, more }: { d: number; p: number; more: number }): boolean {
    if (this.pending) this.pullBy(this.pending);
    const { room, pulls, quest } = this;
    for (let i = 0; i < pulls.length; i++) {
      const pull = pulls[i] as OpenPull;
      const femur = more + pull.least.bare + pull.distal(d) + pull.posterior(p);
      if (femur + pull.least.tibial > quest.limit) return false;
      room[i] = quest.limit - femur;
    }
    return true;
  }

  private isTooDear(t: number): boolean {
    const { room, pulls } = this;
    for (let i = 0; i < pulls.length; i++) if ((pulls[i] as OpenPull).tibial(t) > (room[i] as number)) return true;
    return false;
  }
}
