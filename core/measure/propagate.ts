import type { Outcome } from './outcome.ts';

/** Standard deviation of a result from independent inputs: what carries over from each mark, the scale, a thickness. */
export interface Perturbation {
  /** Moves the input by `times` standard deviations from where it stands. */
  readonly move: (times: number) => void;
  /** What it is, so that one cause is known again in several results; absent = nobody asks. */
  readonly cause?: string;
}

/**
 * First-order propagation: each independent input is moved by one standard deviation either way and put back;
 * half the difference of the two results is its share, and the shares add in quadrature. The step of one standard
 * deviation is the central difference of the Jacobian row already multiplied by the spread.
 * Result: standard deviation in the result's unit, or null where a moved input gives no result.
 * Valid while the result is close to linear over one standard deviation (JCGM 100:2008, 5.1.2).
 */
export function propagatedSd(result: () => Outcome<number>, inputs: readonly Perturbation[]): number | null {
  const shares = propagatedShares(result, inputs);
  return shares && Math.sqrt(shares.reduce((variance, share) => variance + share ** 2, 0));
}

/** The same, input by input: what one standard deviation more of each adds to the result, with its sign, in the result's unit. */
export function propagatedShares(
  result: () => Outcome<number>,
  inputs: readonly Perturbation[],
): readonly number[] | null {
  const shares: number[] = [];
  for (const input of inputs) {
    input.move(1);
    const above = result();
    input.move(-1);
    const below = result();
    input.move(0);
    if (!above.ok || !below.ok) return null;
    shares.push((above.value - below.value) / 2);
  }
  return shares;
}
