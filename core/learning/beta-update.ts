/** A beta distribution of a chance: as good as `a` times yes and `b` times no. */
export interface Beta {
  readonly a: number;
  readonly b: number;
}

/** A stated chance as a beta distribution that weighs as much as `weight` cases (LRN-5). */
export const betaOf = (chance: number, weight: number): Beta => ({ a: weight * chance, b: weight * (1 - chance) });

/**
 * A chance after `yes` in `n` cases: conjugate updating of a beta distribution (Gelman et al. 2013, Bayesian Data
 * Analysis, 3rd ed., 2.4). Example: beta(2, 8) after 3 in 5 is beta(5, 10), mean 1/3.
 */
export const betaAfter = ({ a, b }: Beta, yes: number, n: number): Beta => ({ a: a + yes, b: b + n - yes });

export const betaMean = ({ a, b }: Beta): number => a / (a + b);

/** Standard deviation of the chance itself. */
export const betaSd = ({ a, b }: Beta): number => Math.sqrt((a * b) / ((a + b) ** 2 * (a + b + 1)));
