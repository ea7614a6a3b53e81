/** What was run several times: the quickest, and the milliseconds of the slowest. */
export interface BestOf<T> {
  readonly best: T;
  readonly slowestMs: number;
}

/** Runs something several times and gives the quickest, because other work on the machine can only add. */
export function bestOf<T>(times: number, run: () => T, msOf: (run: T) => number): BestOf<T> {
  const runs = Array.from({ length: times }, run).toSorted((a, b) => msOf(a) - msOf(b));
  return { best: runs[0] as T, slowestMs: msOf(runs.at(-1) as T) };
}
