import { ZONES_WANTED, type ZoneCount, zonesAreDemanded, zonesOfFixation } from '../bone/zones.ts';
import type { Catalogue, Cone, ConstraintLevel, Sleeve } from '../catalogue/catalogue.ts';
import type { ChosenStem } from '../stems/choose-stem.ts';
import { stemDemands } from '../stems/stem-demand.ts';
import type { BoneState, CavityFit } from './bone-state.ts';
import { charge, type Prices } from './price.ts';
import { boneFacts, conflictCost, stemLimit } from './stem-limits.ts';

export { boneFacts } from './stem-limits.ts';

/** Stem, cone and sleeve of one bone, and what they cost. At most one of cone and sleeve. */
export interface Fixation {
  readonly stem: ChosenStem | null;
  readonly cone: Cone | null;
  readonly sleeve: Sleeve | null;
  readonly cost: number;
}

/** One bone with what stands on it. */
export interface BoneAsked {
  readonly bone: 'femur' | 'tibia';
  readonly level: ConstraintLevel;
  readonly augments: number;
  readonly offsetCoupler: boolean;
  /** Stem that the bone would take at this level (`stemFor`), null = none passes. */
  readonly stem: ChosenStem | null;
  /** Cones and sleeves that come into question (`metaphysealParts`), the first to be preferred. */
  readonly cones: readonly Cone[];
  readonly sleeves: readonly Sleeve[];
  /** A segment replaces joint surface and metaphysis: only the shaft is left to hold. */
  readonly segment: boolean;
  readonly stemsDemanded: boolean;
  readonly zonesDemanded: boolean;
}

/** Zones missing for two of three, those that cannot be judged left out. */
export function zonesShort(count: ZoneCount): number {
  return Math.max(0, ZONES_WANTED - count.solid.length - count.unknown.length);
}

/** Zones of fixation of one bone with what is in it (BONE-3); with a segment the shaft alone (GAP-26). */
export function zonesWith(
  facts: ReturnType<typeof boneFacts>,
  has: { readonly stem: boolean; readonly metaphyseal: boolean; readonly segment: boolean },
): ZoneCount {
  if (has.segment) return { solid: has.stem ? [3] : [], unknown: [] };
  return zonesOfFixation({ ...facts, stem: has.stem, cone: has.metaphyseal });
}

/**
 * Cones and sleeves of the catalogue for one bone and size (GAP-29), narrowest first: those that fit the cavity where
 * it was measured, and whose opening clears the box.
 *
 * @param asked size of femur or tray; box in mm, 0 = none.
 */
export function metaphysealParts(
  asked: { readonly bone: 'femur' | 'tibia'; readonly size: number; readonly boxWidthMm: number },
  { state, catalogue }: { readonly state: BoneState; readonly catalogue: Catalogue },
): { readonly cones: readonly Cone[]; readonly sleeves: readonly Sleeve[] } {
  const cavity: readonly CavityFit[] | undefined = asked.bone === 'femur' ? state.femurCavity : state.tibiaCavity;
  const fits = (ref: string) => !cavity || cavity.some((fit) => fit.ref === ref && fit.fits);
  const suits = (part: Cone | Sleeve) => part.bone === asked.bone && part.sizes.includes(asked.size) && fits(part.ref);
  const narrowestFirst = (a: Cone | Sleeve, b: Cone | Sleeve) => a.widthMm - b.widthMm || (a.ref < b.ref ? -1 : 1);
  return {
    cones: (catalogue.cones ?? [])
      .filter((c) => suits(c) && (c.boreMm === undefined || c.boreMm >= asked.boxWidthMm))
      .sort(narrowestFirst),
    sleeves: (catalogue.sleeves ?? []).filter(suits).sort(narrowestFirst),
  };
}

type Metaphyseal = Pick<Fixation, 'cone' | 'sleeve'>;

/** Nothing, the first cone whose opening the stem passes, the first sleeve that goes with the coupler. */
function metaphysealChoices(asked: BoneAsked, stem: ChosenStem | null): Metaphyseal[] {
  const nothing: Metaphyseal = { cone: null, sleeve: null };
  if (asked.segment) return [nothing];
  const cone = asked.cones.find((c) => c.boreMm === undefined || !stem || c.boreMm >= stem.stem.diameterMm);
  const sleeve = asked.sleeves.find((s) => !asked.offsetCoupler || s.takesOffset === true);
  return [nothing, ...(cone ? [{ cone, sleeve: null }] : []), ...(sleeve ? [{ cone: null, sleeve }] : [])];
}

/**
 * Every way to hold one bone that the limits allow (STM-1, BONE-3, BONE-4, GAP-26 to GAP-29), cheapest first; empty
 * where none does: no stem passes the canal, or nothing gives the second zone.
 * Ties: without a stem before with one; nothing in the metaphysis before a cone, a cone before a sleeve.
 */
export function fixationsOf(asked: BoneAsked, state: BoneState, prices: Prices): readonly Fixation[] {
  const facts = boneFacts(state, asked.bone);
  const found: Fixation[] = [];
  for (const stem of asked.stem ? [null, asked.stem] : [null])
    for (const { cone, sleeve } of metaphysealChoices(asked, stem)) {
      const metaphyseal = cone !== null || sleeve !== null;
      const call = { augments: asked.augments, offsetCoupler: asked.offsetCoupler, level: asked.level, ...facts };
      const demands = asked.segment ? ['segment'] : stemDemands({ ...call, cone: metaphyseal });
      if (asked.stemsDemanded && !stem && demands.length > 0) continue;
      const zones = zonesWith(facts, { stem: stem !== null, metaphyseal, segment: asked.segment });
      const demanded = asked.zonesDemanded && !asked.segment && zonesAreDemanded(facts.boneClass);
      if (demanded && zones.solid.length < ZONES_WANTED) continue;
      const limit = stem ? stemLimit(state, asked.bone, stem.stem.ref) : null;
      const cost =
        charge(zonesShort(zones), prices.zones) +
        charge(stem ? 1 : 0, prices.stem) +
        charge(cone ? 1 : 0, prices.cone) +
        charge(sleeve ? 1 : 0, prices.sleeve) +
        charge(stem?.looseMm ?? 0, prices['stem-fit']) +
        conflictCost(limit, prices['stem-conflict']);
      found.push({ stem, cone, sleeve, cost });
    }
  return found.sort(cheaperFixation);
}

/** Order by cost; a stable sort keeps the order of making among equals, and rounding makes none unequal. */
export const cheaperFixation = (a: Fixation, b: Fixation): number =>
  Math.abs(a.cost - b.cost) <= 1e-9 ? 0 : a.cost - b.cost;
