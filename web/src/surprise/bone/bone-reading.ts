import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import { type ZonesOfPlan, zonesOfPlan } from '@gapline/core/plan/bone-stock-zones.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import type { SurpriseStanding } from '../standing.ts';

/** Zones of one bone and how the plan's construct holds in them; null while there is no construct or no class. */
export const zonesUsed = (plan: Plan, stock: StockOfBone): ZonesOfPlan | null =>
  plan.construct.kind === 'solved' && stock.statedClass !== null
    ? zonesOfPlan(stock, plan.construct.answer.best.construct)
    : null;

/** Where the bone stock stands, in one line. */
export function boneStockStanding({ boneStock: { femur, tibia } }: Plan): SurpriseStanding {
  const clashes = femur.contradictions.length + tibia.contradictions.length;
  if (clashes > 0)
    return { is: 'conflict', line: clashes === 1 ? 'One contradiction to mend' : `${clashes} contradictions to mend` };
  const open = [femur, tibia].filter((b) => b.statedClass === null).map((b) => b.bone);
  if (open.length > 0) return { is: 'open', line: `Class not stated: ${open.join(' and ')}` };
  const words = `Femur ${femur.statedClass}, tibia ${tibia.statedClass}`;
  const disputed = [femur, tibia].some((b) => b.standing === 'milder' || b.standing === 'worse');
  return disputed ? { is: 'conflict', line: `${words}; the map says otherwise` } : { is: 'settled', line: words };
}
