/** One comparison: our time against a named alternative's, measured in the same run. */
export interface Bench {
  readonly name: string;
  /** What is hoped for, in words, e.g. "no slower than dcm2pnm (ratio <= 1)". */
  readonly target: string;
  run(): Promise<BenchResult>;
}

export interface BenchResult {
  readonly ours: number;
  readonly theirs: number;
  readonly unit: string;
  /** ours / theirs: below 1 = faster than the alternative (for frame rates: above 1 = better). */
  readonly ratio: number;
  readonly note?: string;
}
