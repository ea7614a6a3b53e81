/**
 * Long work as a generator: it yields how far it is and may be left between any two steps; what it returns is the
 * answer. These two are all that is ever done with one as a whole.
 */
type Steps<P, T> = Generator<P, T, unknown>;

/** Runs the work to its end and gives the answer; each step is told, where somebody listens. */
export function finish<P, T>(steps: Steps<P, T>, tell: (progress: P) => void = () => undefined): T {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    tell(step.value);
  }
}

/** The same work as a part of larger work: its steps in the words of that. */
export function* retold<P, Q, T>(steps: Steps<P, T>, tell: (progress: P) => Q): Steps<Q, T> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    yield tell(step.value);
  }
}
