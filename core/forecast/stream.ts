import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** One stream of chance, for one quantity of the forecast. */
export interface Stream {
  /** Uniform in [0, 1). */
  readonly uniform: () => number;
  /** Standard normal (Box & Muller 1958), two uniforms each. */
  readonly normal: () => number;
}

/** Outputs thrown away at the start: the generator's first ones hang on its seed. */
const RUN_IN = 32;

/**
 * The stream of one quantity under one seed (FOR-1). Streams stand apart: how often one is asked changes no other, so
 * that a spread that changes leaves every other draw as it was (common random numbers).
 */
export function streamOf(seed: number, quantity: string): Stream {
  // FNV-1a over name and seed, then the finisher of MurmurHash3, so that neighbouring seeds start far apart.
  let hash = 2166136261;
  for (const c of `${quantity}/${seed}`) hash = Math.imul(hash ^ c.charCodeAt(0), 16777619);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  const generator = xoroshiro128plus(hash ^ (hash >>> 16));
  for (let i = 0; i < RUN_IN; i++) generator.next();
  const uniform = () => uniformFloat64(generator);
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}
