import type { OffsetCoupler } from '../../catalogue/catalogue.ts';
import type { PerCompartment } from '../../landmarks/side.ts';
import { charge, type Prices } from '../price.ts';
import type { Bounds } from './bounds.ts';
import { type Curve, leastAt } from './curve.ts';
import { HingeSum } from './hinge-sum.ts';

/** A pair of augments on one part of the knee, tied to the rest through one length: J, q or U. */
export interface Pair {
  /** Indices into the prepared lists. */
  readonly medial: number;
  readonly lateral: number;
  /** Place in the table, the cheapest first. */
  place: number;
  readonly augments: number;
  readonly thicknessMm: number;
  readonly curve: Curve;
  /** The least of the curve. */
  readonly least: number;
  /** Blocks only: the pair with each height of tray and insert that was asked for, and the least of it; null = none yet. */
  raised: (TibialChoice | undefined)[] | null;
  leasts: number[] | null;
}

/** A choice for one part of the knee. */
export interface Choice {
  readonly pair: Pair;
  /** Limits of its length J, q or K, mm. */
  readonly low: number;
  readonly high: number;
  /** The least of its curve. */
  readonly least: number;
  /** Its curve of J, q or K; null = not added up yet. */
  curve: Curve | null;
}

/** A coupler, or none, with what it and the gap at the flange cost along q. */
export interface Flange {
  readonly coupler: OffsetCoupler | null;
  readonly curve: Curve;
  readonly least: number;
}

/** What may stand behind one femur that stands in one way. */
export interface Behind {
  /** Place among all of the bone state. */
  readonly place: number;
  readonly flanges: readonly Flange[];
  /** Pairs of posterior augments, cheapest first. */
  readonly condyles: readonly Pair[];
}

/** Posterior augments with the coupler that shifts the femur. */
export interface PosteriorChoice extends Choice {
  readonly flange: Flange;
}

/** Blocks with one tray and one insert: the curve of the pair stands `shiftMm` below K. */
export interface TibialChoice extends Choice {
  /** What the height of the bearing costs along K. */
  readonly line: Curve;
  readonly shiftMm: number;
}

/** Thicknesses that may stand on each side, 0 = none, in mm. */
export type Thicknesses = readonly number[];

export const thicknessesOf = (parts: readonly ({ readonly thicknessMm: number } | null)[]): Thicknesses =>
  parts.map((p) => p?.thicknessMm ?? 0);

export interface Seat {
  /** The length (J, q or U) at which a side without augment is flush, mm. */
  readonly flush: PerCompartment<number>;
  /** -1: an augment lowers the flush level (femur); +1: raises it (tibia). */
  readonly augmentWay: 1 | -1;
  /** +1: moving up fills the space (tibia); -1: moving up cuts (femur). */
  readonly fillWay: 1 | -1;
  /** What else hangs on this length alone. */
  readonly also?: (sum: HingeSum) => void;
}

/** Hinges of the space under one side: cement above flush, deep cement, cut bone; limits of both. */
function chargeSpace(sum: HingeSum, flush: number, fillWay: 1 | -1, { prices, bounds }: Charged): void {
  const { cement, 'cement-deep': deep, 'bone-cut': cut } = prices;
  if (fillWay === 1) {
    sum.within(flush - bounds.cutMm, flush + bounds.cementMm);
    sum.add(flush - cut.free[1], cut.weight, 0);
    sum.add(flush + cement.free[1], 0, cement.weight);
    sum.add(flush + deep.free[1], 0, deep.weight);
  } else {
    sum.within(flush - bounds.cementMm, flush + bounds.cutMm);
    sum.add(flush - deep.free[1], deep.weight, 0);
    sum.add(flush - cement.free[1], cement.weight, 0);
    sum.add(flush + cut.free[1], 0, cut.weight);
  }
}

interface Charged {
  readonly prices: Prices;
  readonly bounds: Bounds;
}

/** What one augment costs, wherever it stands; 0 mm = none. */
export const augmentCost = (thicknessMm: number, prices: Prices): number =>
  thicknessMm > 0
    ? prices['augment-count'].weight +
      prices['augment-thickness'].weight * thicknessMm +
      charge(thicknessMm, prices['augment-thick'])
    : 0;

/** Of the medial side with all that every pair is charged, and of one pair. */
const medialSum = new HingeSum();
const pairSum = new HingeSum();

/** Every pair of augments that the limits leave, cheapest at best first. */
export function pairs(thicknesses: Thicknesses, { flush, augmentWay, fillWay, also }: Seat, charged: Charged): Pair[] {
  const found: Pair[] = [];
  const { prices, bounds } = charged;
  const reach = bounds.cementMm + bounds.cutMm + 1e-9;
  const costs = thicknesses.map((mm) => augmentCost(mm, prices));
  for (let medial = 0; medial < thicknesses.length; medial++) {
    const tm = thicknesses[medial] as number;
    const fm = flush.medial + augmentWay * tm;
    medialSum.clear();
    also?.(medialSum);
    chargeSpace(medialSum.always(costs[medial] as number), fm, fillWay, charged);
    for (let lateral = 0; lateral < thicknesses.length; lateral++) {
      const tl = thicknesses[lateral] as number;
      const fl = flush.lateral + augmentWay * tl;
      if (Math.abs(fm - fl) > reach) continue;
      pairSum.from(medialSum).always(costs[lateral] as number);
      chargeSpace(pairSum, fl, fillWay, charged);
      const curve = pairSum.done();
      if (!curve) continue;
      const augments = (tm > 0 ? 1 : 0) + (tl > 0 ? 1 : 0);
      const least = leastAt(curve, 0);
      found.push({
        medial,
        lateral,
        place: 0,
        augments,
        thicknessMm: tm + tl,
        curve,
        least,
        raised: null,
        leasts: null,
      });
    }
  }
  cheapestFirst(found);
  for (let i = 0; i < found.length; i++) (found[i] as Pair).place = i;
  return found;
}

const BARE = { medial: 0, lateral: 0, place: 0, augments: 0, thicknessMm: 0 };

/** The only pair of a segment, which takes no augments; none where its limits leave nothing. */
export const bare = (curve: Curve | null): Pair[] =>
  curve ? [{ ...BARE, curve, least: leastAt(curve, 0), raised: null, leasts: null }] : [];

/** Sorts by what is charged at best; equal ones stay in their order. By insertion: the lists are short, and mostly in order. */
export function cheapestFirst<T extends { readonly least: number }>(choices: T[]): T[] {
  for (let n = 1; n < choices.length; n++) {
    const choice = choices[n] as T;
    const { least } = choice;
    let i = n;
    for (; i > 0 && (choices[i - 1] as T).least > least; i--) choices[i] = choices[i - 1] as T;
    choices[i] = choice;
  }
  return choices;
}
