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
 * Lower bounds of the choices of one femur when all that ties the lengths is paid at one tension: then the three
 * lengths part, and each choice costs what its own curve costs at best less what its length earns.
 */
export interface FemoralPull {
  /** What one mm of K earns. */
  readonly priceOfK: number;
  /** What ties the lengths beyond the tension, at best. */
  readonly beyond: number;
  /** In the order of the open choices. */
  readonly distals: readonly number[];
  readonly posteriors: readonly number[];
  readonly leastDistal: number;
  readonly leastPosterior: number;
}

/** The same with the choices of the tibia, with all that is charged on them. */
export interface Pull extends FemoralPull {
  readonly tibials: readonly number[];
  readonly leastTibial: number;
}

const leastOf = (bounds: readonly number[]): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < bounds.length; i++) if ((bounds[i] as number) < least) least = bounds[i] as number;
  return least;
};

/** The bounds of the femur at a tension; null where it is steeper than the ties are. */
export function femoralPull(open: Omit<OpenChoices, 'tibials'>, tension: Tension): FemoralPull | null {
  const beyond = leastBeyond(open.ties, open.arc, tension);
  if (beyond === Number.NEGATIVE_INFINITY) return null;
  const { j, q, k } = pricesAt(tension);
  const distals = open.distals.map(({ pair }) => leastAt(pair.curve, j));
  const posteriors = open.posteriors.map(({ flange, pair }) =>
    leastOfTwo({ own: flange.curve, moved: pair.curve, shift: 0 }, q),
  );
  return {
    priceOfK: k,
    beyond,
    distals,
    posteriors,
    leastDistal: leastOf(distals),
    leastPosterior: leastOf(posteriors),
  };
}

/** Adds the bounds of the tibia. */
export function withTibia(femoral: FemoralPull, candidates: readonly TibialCandidate[]): Pull {
  const tibials = candidates.map(
    ({ parts, choice: { line, pair, shiftMm } }) =>
      parts + leastOfTwo({ own: line, moved: pair.curve, shift: shiftMm }, femoral.priceOfK),
  );
  return { ...femoral, tibials, leastTibial: leastOf(tibials) };
}
