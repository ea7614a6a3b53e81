import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Standard normal draws from a seed (Box & Muller 1958): the same seed gives the same numbers. For simulation checks. */
export function normalDraws(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () =>
    Math.sqrt(-2 * Math.log(1 - uniformFloat64(generator))) * Math.cos(2 * Math.PI * uniformFloat64(generator));
}

/** Mean and standard deviation of a sample of two or more. */
export function meanAndSd(sample: readonly number[]): { readonly mean: number; readonly sd: number } {
  const mean = sample.reduce((s, v) => s + v, 0) / sample.length;
  return { mean, sd: Math.sqrt(sample.reduce((s, v) => s + (v - mean) ** 2, 0) / (sample.length - 1)) };
}
