import type { Catalogue, ConstraintLevel, Stem } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import { pricesOf } from '../gaps/price.ts';
import { conflictCost, stemFor, stemLimit } from '../gaps/stem-limits.ts';
import type { WeightTable } from '../gaps/weights.ts';

type Bone = 'femur' | 'tibia';

interface Priced {
  readonly stem: Stem;
  readonly cost: number;
}

/** Levels at which a stem may be short, and at which it may not (STM-3). */
const LEVELS: readonly ConstraintLevel[] = ['ps', 'hinge'];

/**
 * Lists of stems to try where the stem that the rules prefer (fixation first, STM-2) fits its canal worse than another
 * one that lies in the room: nothing that lies there has to be used, so bringing more never hurts (KIT-2). For either length
 * that the levels ask for: in each bone the stem that costs least by its fit, alone.
 *
 * @returns none where the preferred stems cost no more than any other.
 */
export function bestStems(room: Catalogue, state: BoneState, weights: WeightTable): readonly (readonly Stem[])[] {
  const prices = pricesOf(weights);
  const chosen = (bone: Bone, level: ConstraintLevel, stems: readonly Stem[]): Priced | null => {
    const found = stemFor({ bone, level }, { state, catalogue: { ...room, stems } }, prices['stem-conflict']);
    if (!found) return null;
    const { stem, looseMm } = found;
    const fit = prices['stem-fit'].weight * (looseMm ?? 0);
    return { stem, cost: fit + conflictCost(stemLimit(state, bone, stem.ref), prices['stem-conflict']) };
  };
  return LEVELS.flatMap((level) => {
    let dearer = false;
    const stems = (['femur', 'tibia'] as const).flatMap((bone): Stem[] => {
      const preferred = chosen(bone, level, room.stems);
      if (!preferred) return [];
      let best = preferred;
      if (preferred.cost > 0)
        for (const stem of room.stems) {
          const other = chosen(bone, level, [stem]);
          if (other && other.cost < best.cost - 1e-9) best = other;
        }
      if (best !== preferred) dearer = true;
      return [{ ...best.stem, bone }];
    });
    return dearer ? [stems] : [];
  });
}
