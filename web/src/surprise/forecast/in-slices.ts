/** How long a slice of work may last before the worker listens again, ms. */
export const SLICE_MS = 24;

/** What a long computation does between its steps. */
export interface Slices<P> {
  /** False once nobody wants the answer any more. */
  readonly wanted: () => boolean;
  readonly now: () => number;
  /** Lets what has arrived meanwhile be heard. */
  readonly breathe: () => Promise<void>;
  readonly tell: (progress: P) => void;
}

/**
 * Runs a computation in short slices, so that it can be told to stop between any two: the newest progress is told
 * after each slice. Null = no longer wanted.
 */
export async function inSlices<P, T>(steps: Generator<P, T, unknown>, slices: Slices<P>): Promise<T | null> {
  let until = slices.now() + SLICE_MS;
  for (;;) {
    const step = steps.next();
    if (step.done) return slices.wanted() ? step.value : null;
    if (slices.now() < until) continue;
    slices.tell(step.value);
    await slices.breathe();
    if (!slices.wanted()) return null;
    until = slices.now() + SLICE_MS;
  }
}
