import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { MID_FLEXION_DEG } from '../arc.ts';
import { flexionReachMm, shapeLooserMm } from '../arc-shape.ts';
import type { BoneState } from '../bone-state.ts';
import type { Fixation } from '../fixation.ts';
import { forcedFlexionDeg } from '../stem-limits.ts';
import { SAME_COST } from './order.ts';
import type { PreparedFemur, PreparedTray } from './prepared.ts';
import { NEVER } from './whole-parts.ts';

/** What stands on the bone besides the component: nothing, augments, or a coupler with or without them. */
export type Load = 'plain' | 'augmented' | 'coupled';
const LOADS: readonly Load[] = ['plain', 'augmented', 'coupled'];

/** The cheapest way to hold a bone under each load; null = none. */
export type Held = Readonly<Record<Load, Fixation | null>>;

/** One way for the femur to stand: held so that its stem flexes the component by so much. */
export interface Stance {
  readonly held: Held;
  /** Cheapest of the three, infinite where none does. */
  readonly least: number;
  readonly flexionDeg: number;
  /** How much further back the posterior surface reaches than that of a component that is not flexed, mm. */
  readonly reachMm: number;
  /** What its shape adds to laxity at each angle of mid-flexion, mm. */
  readonly looserMm: readonly number[];
}

/** Ways to hold a component at one level. */
export interface Ways {
  /** Under each load, the cheapest first but for `looseStem`. */
  readonly under: Readonly<Record<Load, readonly Fixation[]>>;
  /** What every way with a stem costs besides, because the stem is narrower than the canal asks for. */
  readonly looseStem: number;
}

/** Ways of the parts of a prepared catalogue. */
export type WaysOf = (part: PreparedFemur | PreparedTray, level: ConstraintLevel) => Ways;

/** What a way costs with its stem in this canal. */
export const costOfWay = (way: Fixation, { looseStem }: Ways): number => (way.stem ? way.cost + looseStem : way.cost);

/** The cheapest way under a load of those that are allowed, with its cost in this canal; null = none. Ties: the earlier. */
export function cheapestWay(ways: Ways, load: Load, allows?: (way: Fixation) => boolean): Fixation | null {
  let best: Fixation | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const way of ways.under[load]) {
    const cost = costOfWay(way, ways);
    if (allows?.(way) === false || !(cost < least - SAME_COST)) continue;
    best = way;
    least = cost;
  }
  return best && (best.cost === least ? best : { ...best, cost: least });
}

/** The cheapest way under each load. */
export const heldBy = (ways: Ways, allows?: (way: Fixation) => boolean): Held => ({
  plain: cheapestWay(ways, 'plain', allows),
  augmented: cheapestWay(ways, 'augmented', allows),
  coupled: cheapestWay(ways, 'coupled', allows),
});

/** Cost of the cheapest load, infinite where nothing holds. */
export const leastHeld = ({ plain, augmented, coupled }: Held): number =>
  Math.min(plain?.cost ?? NEVER, augmented?.cost ?? NEVER, coupled?.cost ?? NEVER);

const UPRIGHT = MID_FLEXION_DEG.map(() => 0);

/** A femur that is not flexed, of its own shape. */
export const plainStance = (held: Held): Stance => ({
  held,
  least: leastHeld(held),
  flexionDeg: 0,
  reachMm: 0,
  looserMm: UPRIGHT,
});

/** Flexion that the femur's stem would force on it, deg, + = flexed; 0 where no way has a stem. */
export function flexionOf(femur: PreparedFemur, ways: Ways, state: BoneState): number {
  if (femur.segment || !state.femoralStemLimits) return 0;
  const stem = LOADS.flatMap((load) => ways.under[load]).find((way) => way.stem)?.stem?.stem.ref ?? null;
  return forcedFlexionDeg(state, stem);
}

/**
 * The ways for a femur to stand: one, unless its stem flexes the component (GAP-28); then without the stem and with
 * it, since flexion changes where the posterior surface and the arc stand.
 */
export function stancesOf(femur: PreparedFemur, ways: Ways, state: BoneState): readonly Stance[] {
  const { outlines } = femur.femur;
  const stance = (held: Held, flexionDeg: number): Stance => ({
    held,
    least: leastHeld(held),
    flexionDeg,
    reachMm: flexionReachMm({ outlines, flexionDeg }),
    looserMm: MID_FLEXION_DEG.map((deg) => shapeLooserMm({ outlines, flexionDeg, target: state.targetOutline }, deg)),
  });
  const flexion = flexionOf(femur, ways, state);
  if (flexion === 0) return [stance(heldBy(ways), 0)];
  return [
    stance(
      heldBy(ways, (way) => !way.stem),
      0,
    ),
    stance(
      heldBy(ways, (way) => way.stem !== null),
      flexion,
    ),
  ];
}
