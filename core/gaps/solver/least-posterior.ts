import type { Flange, Pair } from './choices.ts';
import { leastAt } from './curve.ts';
import type { Kind } from './kind.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER } from './whole-parts.ts';

/** The cheapest posterior choice at one price of q, and what it costs there. */
export interface LeastPosterior {
  readonly least: number;
  readonly pair: Pair;
  readonly flange: Flange;
}

/**
 * The cheapest of any pair of posterior augments with any coupler when each mm of q earns its price; null where their
 * limits leave none.
 *
 * @param condyles pairs, cheapest first.
 */
export function leastPosterior(
  { flanges, condyles }: { readonly flanges: readonly Flange[]; readonly condyles: readonly Pair[] },
  price: number,
  allows?: Kind['posterior'],
): LeastPosterior | null {
  let least = NEVER;
  let found: Pick<LeastPosterior, 'pair' | 'flange'> | null = null;
  for (const flange of flanges) {
    const alone = leastAt(flange.curve, price);
    for (const pair of condyles) {
      if (alone + pair.least >= least) break;
      if (allows?.(pair, flange.coupler) === false) continue;
      const both = leastOfTwo(flange.curve, pair.curve, 0, price);
      if (!(both < least)) continue;
      least = both;
      found = { pair, flange };
    }
  }
  return found && { ...found, least };
}
