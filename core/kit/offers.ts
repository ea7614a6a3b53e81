import type { KitAsked } from './kit-options.ts';
import type { KitOffer } from './kit-problem.ts';
import { orderBy } from './order-by.ts';

/** What each set of the list costs, and by when it must be ordered (KIT-6, KIT-8). */
export function offersOf({ setList, surgeryOn, today, holidays }: KitAsked): KitOffer[] {
  return setList.sets.map((set) => {
    const by = set.owner === 'loan' && surgeryOn ? orderBy(surgeryOn, set.leadDays, holidays) : null;
    const late = by !== null && today !== undefined && today !== null && by < today;
    return { set, cost: set.trays * setList.trayCost + set.fee, orderBy: by, late };
  });
}
