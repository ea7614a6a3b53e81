import type { ArcTerm } from './arc-term.ts';
import type { TibialCandidate } from './candidates.ts';
import type { Choice, PosteriorChoice } from './choices.ts';
import { leastAt } from './curve.ts';
import { leastBeyond, pricesAt, type Tension } from './tension.ts';
import type { Ties } from './ties.ts';
import { leastOfTwo } from './two-curves.ts';

/** The choices of one branch that can still be part of a better construct, each list cheapest first. */
export interface OpenChoices {
  readonly ties: Ties;
  readonly arc: ArcTerm | null;
  readonly distals: readonly Choice[];
  readonly posteriors: readonly PosteriorChoice[];
  readonly tibials: readonly TibialCandidate[];
}

/**
 * Lower bounds of the choices of one branch when all that ties the lengths is paid at one tension: then the three lengths part,
 * and each choice costs what its own curve costs at best less what its length earns.
 */
export interface Pull {
  /** What ties the lengths beyond the tension, at best. */
  readonly beyond: number;
  /** In the order of the open choices; those of the tibia with all that is charged on it. */
  readonly distals: readonly number[];
  readonly posteriors: readonly number[];
  readonly tibials: readonly number[];
  readonly leastDistal: number;
  readonly leastPosterior: number;
  readonly leastTibial: number;
}

const leastOf = (bounds: readonly number[]): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const bound of bounds) if (bound < least) least = bound;
  return least;
};

/** The bounds at a tension; null where it is steeper than the differences are. */
export function pullAt({ ties, arc, distals, posteriors, tibials }: OpenChoices, tension: Tension): Pull | null {
  const beyond = leastBeyond(ties, arc, tension);
  if (beyond === Number.NEGATIVE_INFINITY) return null;
  const { j, q, k } = pricesAt(tension);
  const ofDistals = distals.map(({ pair }) => leastAt(pair.curve, j));
  const ofPosteriors = posteriors.map(({ flange, pair }) =>
    leastOfTwo({ own: flange.curve, moved: pair.curve, shift: 0 }, q),
  );
  const ofTibials = tibials.map(
    ({ parts, choice: { line, pair, shiftMm } }) =>
      parts + leastOfTwo({ own: line, moved: pair.curve, shift: shiftMm }, k),
  );
  return {
    beyond,
    distals: ofDistals,
    posteriors: ofPosteriors,
    tibials: ofTibials,
    leastDistal: leastOf(ofDistals),
    leastPosterior: leastOf(ofPosteriors),
    leastTibial: leastOf(ofTibials),
  };
}
