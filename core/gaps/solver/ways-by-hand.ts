import type { ByHand } from '../pinned/by-hand.ts';
import type { Load, Ways, WaysOf } from './holds.ts';
import { remember } from './remember.ts';

/** The ways to hold a bone that are left where its stem, or that it has none, is fixed by hand (GAP-40). */
export function waysByHand(ways: WaysOf, hand: ByHand | undefined): WaysOf {
  if (hand?.femurStemmed === undefined && hand?.tibiaStemmed === undefined) return ways;
  const left = new Map<Ways, Ways>();
  return (part, level) => {
    const stemmed = 'femur' in part ? hand.femurStemmed : hand.tibiaStemmed;
    const all = ways(part, level);
    if (stemmed === undefined) return all;
    return remember(left, all, () => {
      const under = (load: Load) => all.under[load].filter((way) => (way.stem !== null) === stemmed);
      return { ...all, under: { plain: under('plain'), augmented: under('augmented'), coupled: under('coupled') } };
    });
  };
}
