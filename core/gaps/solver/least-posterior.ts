import type { Behind } from './choices.ts';
import { leastAt } from './curve.ts';
import type { Kind } from './kind.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER } from './whole-parts.ts';

/**
 * The least of any pair of posterior augments with any coupler when each mm of q earns its price; infinite where their
 * limits leave none.
 */
export function leastPosterior({ flanges, condyles }: Behind, price: number, allows?: Kind['posterior']): number {
  let least = NEVER;
  for (const flange of flanges) {
    const alone = leastAt(flange.curve, price);
    for (const pair of condyles) {
      if (alone + pair.least >= least) break;
      if (allows?.(pair, flange.coupler) === false) continue;
      least = Math.min(least, leastOfTwo(flange.curve, pair.curve, 0, price));
    }
  }
  return least;
}
