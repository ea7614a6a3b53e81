import type { Outcome } from './outcome.ts';

/** Goes on with both values, or passes on the first reason why not. Warnings of both are the caller's to keep. */
export const combine = <A, B, R>(a: Outcome<A>, b: Outcome<B>, go: (a: A, b: B) => Outcome<R>): Outcome<R> =>
  !a.ok ? a : !b.ok ? b : go(a.value, b.value);
