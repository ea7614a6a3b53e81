import type { SharedSpread } from './plan.ts';

/** Name of the error of the target joint line among the causes (PLAN-20). */
export const JOINT_LINE_CAUSE = 'target joint line';

/** One millimetre of it, proximal +. */
export const JOINT_LINE: SharedSpread = { [JOINT_LINE_CAUSE]: 1 };

/** Name of the error of the target posterior line, and one millimetre of it, backwards +. */
export const POSTERIOR_TARGET: SharedSpread = { 'target posterior line': 1 };

/**
 * What each cause does to a sum of numbers, each with its factor (PLAN-20): shares of one cause add with their signs
 * instead of in quadrature. Unit of the numbers; a number without named causes adds none.
 * Example: a mark that lifts one number by 1 mm and another by 1 mm does nothing to their difference.
 */
export function summed(
  ...terms: readonly (readonly [factor: number, shares: SharedSpread | undefined])[]
): SharedSpread {
  const sum: Record<string, number> = {};
  for (const [factor, shares] of terms)
    for (const [cause, mm] of Object.entries(shares ?? {})) sum[cause] = (sum[cause] ?? 0) + factor * mm;
  return sum;
}
