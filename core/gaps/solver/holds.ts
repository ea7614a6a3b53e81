import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { ChosenStem } from '../../stems/choose-stem.ts';
import { MID_FLEXION_DEG } from '../arc.ts';
import { flexionReachMm, shapeLooserMm } from '../arc-shape.ts';
import type { BoneState } from '../bone-state.ts';
import { cheaperFixation, type Fixation, fixationsOf, metaphysealParts } from '../fixation.ts';
import { charge, type Prices } from '../price.ts';
import { boneFacts, canalDecides, forcedFlexionDeg, stemFor } from '../stem-limits.ts';
import type { Weight } from '../weights.ts';
import type { Bounds } from './bounds.ts';
import type { Prepared, PreparedFemur, PreparedTray } from './prepare.ts';
import { remember } from './remember.ts';

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

export type Ways = Readonly<Record<Load, readonly Fixation[]>>;

/** Ways beyond these are forgotten, so that the memory stays small. */
const MOST_KEPT = 4000;

const shortTables = (): Record<ConstraintLevel, Map<string, Ways>> => ({
  ps: new Map(),
  vvc: new Map(),
  hinge: new Map(),
});

/** Ways of a stem that fits, with what a stem that is too narrow costs besides. */
function looser(ways: Ways, stem: ChosenStem | null, fit: Weight): Ways {
  const more = charge(stem?.looseMm ?? 0, fit);
  if (!stem || more === 0) return ways;
  const under = (load: Load) =>
    ways[load].map((way) => (way.stem ? { ...way, stem, cost: way.cost + more } : way)).sort(cheaperFixation);
  return { plain: under('plain'), augmented: under('augmented'), coupled: under('coupled') };
}

/**
 * Ways to hold a bone, kept from state to state: they hang on few facts (class, quality, level, the stem), so the states
 * of a forecast share them. How well the stem fits differs from canal to canal and is charged on top.
 */
export class HoldMemory {
  private ways = new Map<string, Ways>();
  private stems = new Map<string, ChosenStem | null>();
  private measured: readonly unknown[] = [];

  /** Forgets everything where canal walls or cavities are those of another knee. */
  private enter(state: BoneState): void {
    const now = [state.femoralStemLimits, state.tibialStemLimits, state.femurCavity, state.tibiaCavity];
    if (now.every((x, i) => x === this.measured[i]) && this.ways.size < MOST_KEPT) return;
    this.ways = new Map();
    this.stems = new Map();
    this.measured = now;
  }

  /** For one state: the ways to hold a component at a level, under each load, cheapest first. */
  of(question: { prepared: Prepared; state: BoneState; prices: Prices; bounds: Bounds }) {
    const { prepared, state, prices, bounds } = question;
    this.enter(state);
    const { catalogue } = prepared;
    const demands = `${bounds.stemsDemanded}|${bounds.zonesDemanded}`;
    const factsOf = (bone: 'femur' | 'tibia') => {
      const { boneClass, quality } = boneFacts(state, bone);
      return `${bone}|${boneClass}|${quality}`;
    };
    const facts = { femur: factsOf('femur'), tibia: factsOf('tibia') };
    // A stem that was chosen by the diameter of the canal holds for this state alone.
    const here = new Map<string, ChosenStem | null>();
    const kept = {
      femur: canalDecides(state, 'femur') ? here : this.stems,
      tibia: canalDecides(state, 'tibia') ? here : this.stems,
    };
    const stemOf = (bone: 'femur' | 'tibia', level: ConstraintLevel): ChosenStem | null =>
      remember(kept[bone], `${facts[bone]}|${level}`, () =>
        stemFor({ bone, level }, { state, catalogue }, prices['stem-conflict']),
      );
    const make = (part: PreparedFemur | PreparedTray, level: ConstraintLevel, stem: ChosenStem | null): Ways => {
      const bone = 'femur' in part ? 'femur' : 'tibia';
      const asked = 'femur' in part ? part.femur : { size: part.tray.size, boxWidthMm: 0 };
      const { cones, sleeves } = metaphysealParts({ ...asked, bone }, { state, catalogue });
      const under = (load: Load) =>
        fixationsOf(
          {
            bone,
            level,
            augments: load === 'augmented' ? 1 : 0,
            offsetCoupler: load === 'coupled',
            stem,
            cones,
            sleeves,
            segment: part.segment !== null,
            stemsDemanded: bounds.stemsDemanded,
            zonesDemanded: bounds.zonesDemanded,
          },
          state,
          prices,
        );
      return { plain: under('plain'), augmented: under('augmented'), coupled: under('coupled') };
    };
    // Within one state the short key is enough.
    const near = { femur: shortTables(), tibia: shortTables() };
    return (part: PreparedFemur | PreparedTray, level: ConstraintLevel): Ways => {
      const bone = 'femur' in part ? 'femur' : 'tibia';
      return remember(near[bone][level], part.holdKey, () => {
        const stem = stemOf(bone, level);
        const fitting = stem && (stem.looseMm === null ? stem : { ...stem, looseMm: 0 });
        const name = fitting ? `${fitting.stem.ref}|${fitting.looseMm}` : '';
        const ways = remember(this.ways, `${facts[bone]}|${demands}|${level}|${part.holdKey}|${name}`, () =>
          make(part, level, fitting),
        );
        return looser(ways, stem, prices['stem-fit']);
      });
    };
  }
}

const firstOf = (ways: Ways, allows: (way: Fixation) => boolean): Held => {
  const [plain, augmented, coupled] = LOADS.map((load) => ways[load].find(allows) ?? null);
  return { plain: plain ?? null, augmented: augmented ?? null, coupled: coupled ?? null };
};

/** The cheapest way under each load. */
export const heldBy = (ways: Ways): Held => firstOf(ways, () => true);

/** Cost of the cheapest load, infinite where nothing holds. */
export const leastHeld = (held: Held): number =>
  Math.min(...LOADS.map((load) => held[load]?.cost ?? Number.POSITIVE_INFINITY));

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
  const stem = LOADS.flatMap((load) => ways[load]).find((way) => way.stem)?.stem?.stem.ref ?? null;
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
      firstOf(ways, (way) => !way.stem),
      0,
    ),
    stance(
      firstOf(ways, (way) => way.stem !== null),
      flexion,
    ),
  ];
}
