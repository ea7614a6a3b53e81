/** What is known of a mean and of a spread: normal and scaled inverse chi-square. */
export interface NormalBelief {
  readonly mean: number;
  /** How many cases the mean weighs. */
  readonly meanWeight: number;
  readonly sd: number;
  /** How many cases the spread weighs. */
  readonly sdWeight: number;
}

/**
 * Mean and spread after a sample: conjugate updating with the normal-inverse-chi-square distribution (Gelman et al. 2013,
 * Bayesian Data Analysis, 3rd ed., 3.3). Unit of the sample; an empty sample changes nothing.
 */
export function normalAfter(prior: NormalBelief, sample: readonly number[]): NormalBelief {
  const n = sample.length;
  if (n === 0) return prior;
  const average = sample.reduce((sum, v) => sum + v, 0) / n;
  const squares = sample.reduce((sum, v) => sum + (v - average) ** 2, 0);
  const meanWeight = prior.meanWeight + n;
  const sdWeight = prior.sdWeight + n;
  const between = ((prior.meanWeight * n) / meanWeight) * (average - prior.mean) ** 2;
  return {
    mean: (prior.meanWeight * prior.mean + n * average) / meanWeight,
    meanWeight,
    sd: Math.sqrt((prior.sdWeight * prior.sd ** 2 + squares + between) / sdWeight),
    sdWeight,
  };
}

/** Standard deviation with which the mean itself is known. */
export const meanSd = ({ sd, meanWeight }: NormalBelief): number => sd / Math.sqrt(meanWeight);
