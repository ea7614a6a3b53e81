import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A seeded source of numbers: the same seed gives the same numbers in the same order. */
export interface Chance {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Normal with a mean and standard deviation, kept within `limit` standard deviations of the mean. */
  normal(mean: number, sd: number, limit?: number): number;
}

/** Streams of one seed that do not disturb each other: a further draw in one leaves the others as they were. */
export function chance(seed: number, stream: string): Chance {
  // FNV-1a over the name, then a finisher, so that neighbouring seeds start far apart.
  let hash = 2166136261;
  for (const c of `${stream}/${seed}`) hash = Math.imul(hash ^ c.charCodeAt(0), 16777619);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  const generator = xoroshiro128plus(hash ^ (hash >>> 16));
  const uniform = () => (generator.next() >>> 0) / 4294967296;
  const standard = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return {
    uniform,
    normal(mean, sd, limit = 3) {
      let z = standard();
      while (Math.abs(z) > limit) z = standard();
      return mean + sd * z;
    },
  };
}
