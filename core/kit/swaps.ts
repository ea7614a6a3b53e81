import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import { metaphysealParts } from '../gaps/fixation.ts';
import type { LeastConstruct } from '../gaps/many/open-solver.ts';
import { charge, type Prices, pricesOf } from '../gaps/price.ts';
import { placeCost } from '../gaps/solver/tray-holds.ts';
import { NEVER } from '../gaps/solver/whole-parts.ts';
import { forcedFlexionDeg } from '../gaps/stem-limits.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { partsNeeded } from './parts-needed.ts';
import type { Pieces } from './set-contents.ts';
import { BONES, type Bone, type StemPrices } from './stem-prices.ts';

/** One part in place of another in a construct, and what the change costs (negative = less). */
interface Swap {
  readonly change: Partial<Construct>;
  readonly cost: number;
}

const FIELDS = {
  femur: { stem: 'femoralStem', cone: 'femoralCone', sleeve: 'femoralSleeve', offset: 'femoralOffset' },
  tibia: { stem: 'tibialStem', cone: 'tibialCone', sleeve: 'tibialSleeve', offset: 'tibialOffset' },
} as const;

/**
 * From one construct to those that differ from it by stems, cones and sleeves alone. What these cost hangs on nothing
 * else of the construct, so the change of the whole cost is exact without solving anew; one answer of the solver gives the
 * pieces for many rooms.
 */
export class Swaps {
  private readonly catalogue: Catalogue;
  private readonly stems: StemPrices;
  private readonly prices: Prices;
  /** Sets that hold a part, as a text: parts that lie in the same sets are tried once, the cheapest. */
  private readonly whereIs: (ref: string) => string;

  constructor(
    of: { readonly catalogue: Catalogue; readonly weights: WeightTable },
    stems: StemPrices,
    whereIs: (ref: string) => string,
  ) {
    this.catalogue = of.catalogue;
    this.prices = pricesOf(of.weights);
    this.stems = stems;
    this.whereIs = whereIs;
  }

  /** Pieces of every construct reached by swaps that costs no more than the ceiling, the construct's own first if it does. */
  within(ceiling: number, { construct, cost }: LeastConstruct, state: BoneState): readonly Pieces[] {
    let ways: Swap[] = [{ change: {}, cost }];
    for (const swaps of BONES.flatMap((bone) => [
      this.otherStems(bone, construct, state),
      this.otherMetaphyseal(bone, construct, state),
    ]))
      ways = [
        ...ways,
        ...ways.flatMap((way) =>
          swaps.map((swap) => ({ change: { ...way.change, ...swap.change }, cost: way.cost + swap.cost })),
        ),
      ];
    return ways.filter((way) => way.cost <= ceiling).map((way) => partsNeeded({ ...construct, ...way.change }));
  }

  private otherStems(bone: Bone, construct: Construct, state: BoneState): Swap[] {
    const used = construct[FIELDS[bone].stem];
    if (!used) return [];
    const passing = this.stems.passing(bone, construct.level, state);
    const now = passing.find((p) => p.stem.ref === used);
    if (!now) return [];
    const cone = this.catalogue.cones?.find((c) => c.ref === construct[FIELDS[bone].cone]);
    const flexionDeg = forcedFlexionDeg(state, bone === 'femur' ? used : null);
    const seen = new Set<string>();
    const places = bone === 'tibia' ? this.places(construct, state) : null;
    const placed = places?.(used) ?? 0;
    return passing.flatMap(({ stem, cost }): Swap[] => {
      const where = this.whereIs(stem.ref);
      const clears = cone?.boreMm === undefined || cone.boreMm >= stem.diameterMm;
      // Another flexion of the component would change the gaps.
      const sameFlexion = bone === 'tibia' || forcedFlexionDeg(state, stem.ref) === flexionDeg;
      if (stem.ref === used || where === '' || seen.has(where) || !clears || !sameFlexion) return [];
      // Another stem may set the tray elsewhere, or leave no room for its coupler.
      const place = places?.(stem.ref) ?? 0;
      if (place === NEVER) return [];
      seen.add(where);
      return [{ change: { [FIELDS[bone].stem]: stem.ref }, cost: cost - now.cost + place - placed }];
    });
  }

  /** What width, place and coupler of a construct's tray cost on one stem after another; null where it is a segment. */
  private places({ tray, tibialOffset }: Construct, state: BoneState): ((stem: string) => number) | null {
    const part = this.catalogue.trays.find((t) => t.ref === tray);
    const coupler = this.catalogue.offsetCouplers.find((c) => c.ref === tibialOffset) ?? null;
    const on = { prices: this.prices, bounds: this.catalogue.limits };
    return part ? (stem) => placeCost({ tray: part, stem, coupler, state }, on) : null;
  }

  private otherMetaphyseal(bone: Bone, construct: Construct, state: BoneState): Swap[] {
    const { cone, sleeve, offset, stem } = FIELDS[bone];
    const used = construct[cone] ?? construct[sleeve];
    if (!used) return [];
    const [asCone, asSleeve] = [charge(1, this.prices.cone), charge(1, this.prices.sleeve)];
    const now = construct[cone] ? asCone : asSleeve;
    const component =
      bone === 'femur'
        ? this.catalogue.femurs.find((f) => f.ref === construct.femur)
        : this.catalogue.trays.find((t) => t.ref === construct.tray);
    if (!component) return [];
    const boxWidthMm = 'boxWidthMm' in component ? component.boxWidthMm : 0;
    const fits = metaphysealParts({ bone, size: component.size, boxWidthMm }, { state, catalogue: this.catalogue });
    const stemMm = this.catalogue.stems.find((s) => s.ref === construct[stem])?.diameterMm ?? 0;
    const seen = new Set<string>([this.whereIs(used)]);
    const first = (ref: string): boolean => {
      const where = this.whereIs(ref);
      if (where === '' || seen.has(where)) return false;
      seen.add(where);
      return true;
    };
    return [
      ...fits.cones
        .filter((c) => (c.boreMm === undefined || c.boreMm >= stemMm) && first(c.ref))
        .map((c) => ({ change: { [cone]: c.ref, [sleeve]: null }, cost: asCone - now })),
      ...fits.sleeves
        .filter((s) => (!construct[offset] || s.takesOffset === true) && first(s.ref))
        .map((s) => ({ change: { [cone]: null, [sleeve]: s.ref }, cost: asSleeve - now })),
    ];
  }
}
