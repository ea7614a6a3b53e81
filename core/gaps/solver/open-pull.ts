import type { Branch, TibialCandidate } from './candidates.ts';
import type { Choice, PosteriorChoice } from './choices.ts';
import { type BranchPull, branchPull, type Pull } from './pull.ts';
import { leastOfTwo } from './two-curves.ts';

/** The choices of one branch that can still be part of a better construct, each list cheapest first. */
export interface OpenChoices {
  readonly distals: readonly Choice[];
  readonly posteriors: readonly PosteriorChoice[];
  readonly tibials: readonly TibialCandidate[];
}

/** Lower bounds of the open choices of one branch at one tension, each worked out when it is first asked for. */
export class OpenPull {
  /** The whole branch. */
  readonly least: BranchPull;
  private readonly open: OpenChoices;
  private readonly ofPairs: readonly number[];
  private readonly posteriors: number[] = [];
  private readonly tibials: number[] = [];

  constructor(least: BranchPull, branch: Branch, open: OpenChoices) {
    this.least = least;
    this.open = open;
    this.ofPairs = least.pull.distals(branch.femur).each;
  }

  distal(d: number): number {
    return this.ofPairs[(this.open.distals[d] as Choice).pair.place] as number;
  }

  posterior(p: number): number {
    const known = this.posteriors[p];
    if (known !== undefined) return known;
    const { flange, pair } = this.open.posteriors[p] as PosteriorChoice;
    const least = leastOfTwo(flange.curve, pair.curve, 0, this.least.pull.earns.q);
    this.posteriors[p] = least;
    return least;
  }

  tibial(t: number): number {
    const known = this.tibials[t];
    if (known !== undefined) return known;
    const least = this.least.pull.ofTibial(this.open.tibials[t] as TibialCandidate);
    this.tibials[t] = least;
    return least;
  }
}

/** The bounds of the choices that are open; null where the tension is steeper than the ties are. */
export function openPull(pull: Pull, branch: Branch, open: OpenChoices): OpenPull | null {
  const least = branchPull(pull, branch);
  return least && new OpenPull(least, branch, open);
}
