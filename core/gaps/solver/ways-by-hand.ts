import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { ByHand } from '../pinned/by-hand.ts';
import type { Ways } from './holds.ts';
import type { PreparedFemur, PreparedTray } from './prepare.ts';
import { remember } from './remember.ts';

type WaysOf = (part: PreparedFemur | PreparedTray, level: ConstraintLevel) => Ways;

/** The ways to hold a bone that are left where its stem, or that it has none, is fixed by hand (GAP-40). */
export function waysByHand(ways: WaysOf, hand: ByHand | undefined): WaysOf {
  if (hand?.femurStemmed === undefined && hand?.tibiaStemmed === undefined) return ways;
  const left = new Map<Ways, Ways>();
  return (part, level) => {
    const stemmed = 'femur' in part ? hand.femurStemmed : hand.tibiaStemmed;
    const all = ways(part, level);
    if (stemmed === undefined) return all;
    return remember(left, all, () => {
      const under = (load: keyof Ways) => all[load].filter((way) => (way.stem !== null) === stemmed);
      return { plain: under('plain'), augmented: under('augmented'), coupled: under('coupled') };
    });
  };
}
