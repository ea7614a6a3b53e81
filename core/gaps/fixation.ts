import { ZONES_WANTED, zonesAreDemanded, zonesOfFixation } from '../bone/zones.ts';
import type { Cone, ConstraintLevel } from '../catalogue/catalogue.ts';
import type { ChosenStem } from '../stems/choose-stem.ts';
import { stemDemands } from '../stems/stem-demand.ts';
import type { BoneState } from './bone-state.ts';
import { charge, type Prices } from './price.ts';

/** Stem and cone of one bone, and what they cost. */
export interface Fixation {
  readonly stem: ChosenStem | null;
  readonly cone: Cone | null;
  readonly cost: number;
}

export interface BoneAsked {
  readonly bone: 'femur' | 'tibia';
  readonly level: ConstraintLevel;
  readonly augments: number;
  readonly offsetCoupler: boolean;
  /** Stem that the bone would take at this level, null = none passes. */
  readonly stem: ChosenStem | null;
  /** Cone that fits the size, null = none. */
  readonly cone: Cone | null;
  readonly stemsDemanded: boolean;
  readonly zonesDemanded: boolean;
}

/** The bone's own facts. */
export const boneFacts = (state: BoneState, bone: 'femur' | 'tibia') =>
  bone === 'femur'
    ? { boneClass: state.femurClass, quality: state.femurQuality, canalMm: state.femurCanalMm }
    : { boneClass: state.tibiaClass, quality: state.tibiaQuality, canalMm: state.tibiaCanalMm };

/** Zones missing for two of three, those that cannot be judged left out. */
export function zonesShort(count: ReturnType<typeof zonesOfFixation>): number {
  return Math.max(0, ZONES_WANTED - count.solid.length - count.unknown.length);
}

/**
 * The cheapest stem and cone that the bone, the level and the parts on it allow (STM-1, BONE-3, BONE-4).
 * Null where none does: no stem passes the canal, or no cone for a bone that needs a second zone.
 * Ties: without a stem before with one, without a cone before with one.
 */
export function cheapestFixation(asked: BoneAsked, state: BoneState, prices: Prices): Fixation | null {
  const facts = boneFacts(state, asked.bone);
  let best: Fixation | null = null;
  for (const withStem of [null, asked.stem])
    for (const withCone of [null, asked.cone]) {
      const call = { augments: asked.augments, offsetCoupler: asked.offsetCoupler, level: asked.level, ...facts };
      if (asked.stemsDemanded && !withStem && stemDemands({ ...call, cone: withCone !== null }).length > 0) continue;
      const zones = zonesOfFixation({ ...facts, stem: withStem !== null, cone: withCone !== null });
      if (asked.zonesDemanded && zonesAreDemanded(facts.boneClass) && zones.solid.length < ZONES_WANTED) continue;
      const cost =
        charge(zonesShort(zones), prices.zones) +
        charge(withStem ? 1 : 0, prices.stem) +
        charge(withCone ? 1 : 0, prices.cone) +
        charge(withStem?.looseMm ?? 0, prices['stem-fit']);
      if (!best || cost < best.cost - 1e-9) best = { stem: withStem, cone: withCone, cost };
    }
  return best;
}
