import { ZONES_WANTED, type Zone, zonesAreDemanded, zonesOfFixation } from '../bone/zones.ts';
import type { ZoneLeft } from '../bone/zones-left.ts';
import type { Construct } from '../gaps/construct.ts';
import type { StockOfBone } from './bone-stock.ts';

/** Zones of one bone: what is left of each, and whether the plan holds in it. */
export interface ZonesOfPlan {
  readonly zones: readonly (ZoneLeft & { readonly plan: 'solid' | 'not-used' | 'not-known' })[];
  /** Zones in which the plan is solid. */
  readonly used: number;
  readonly wanted: number;
  /** Two zones are a hard limit for this class, not a wish (BONE-4); null = class not stated. */
  readonly demanded: boolean | null;
}

/**
 * Zones of fixation that remain in one bone and how many of them the planned construct uses (BONE-3, BONE-4). A sleeve counts like a
 * cone. With the surgeon's class; while it is not stated, zones 1 and 2 are not known and only a stem, cone or sleeve counts.
 */
export function zonesOfPlan(stock: StockOfBone, construct: Construct): ZonesOfPlan {
  const femur = stock.bone === 'femur';
  const parts = {
    stem: (femur ? construct.femoralStem : construct.tibialStem) !== null,
    cone: typeof (femur ? construct.femoralCone : construct.tibialCone) === 'string',
    sleeve: typeof (femur ? construct.femoralSleeve : construct.tibialSleeve) === 'string',
  };
  // Of an unstated class only what no class can take away counts: zones 2 and 3 of the worst one.
  const { solid, unknown } = zonesOfFixation({
    boneClass: stock.statedClass ?? '3',
    quality: stock.quality,
    ...parts,
  });
  const planned = (zone: Zone) => {
    if (solid.includes(zone)) return 'solid';
    return unknown.includes(zone) || (stock.statedClass === null && zone < 3) ? 'not-known' : 'not-used';
  };
  return {
    zones: stock.zones.map((z) => ({ ...z, plan: planned(z.zone) })),
    used: solid.length,
    wanted: ZONES_WANTED,
    demanded: stock.statedClass === null ? null : zonesAreDemanded(stock.statedClass),
  };
}
