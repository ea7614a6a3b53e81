import { type ZoneCount, zonesOfFixation } from '@gapline/core/bone/zones.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import type { SurpriseStanding } from '../standing.ts';

/** Zones that the plan's construct uses in one bone; null while there is no construct or no class. */
export function zonesUsed(plan: Plan, { bone, statedClass, quality }: StockOfBone): ZoneCount | null {
  if (plan.construct.kind !== 'solved' || statedClass === null) return null;
  const { construct } = plan.construct.answer.best;
  const femur = bone === 'femur';
  return zonesOfFixation({
    boneClass: statedClass,
    quality,
    stem: (femur ? construct.femoralStem : construct.tibialStem) !== null,
    cone: Boolean(femur ? construct.femoralCone : construct.tibialCone),
    sleeve: Boolean(femur ? construct.femoralSleeve : construct.tibialSleeve),
  });
}

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
