import type { PerCompartment } from '../../landmarks/side.ts';
import { charge, type Prices } from '../price.ts';
import type { Bounds } from './bounds.ts';
import { type Bottom, bottomOf, HingeSum, type Hinges } from './hinges.ts';

/**
 * One choice of parts for a part of the knee that is tied to the rest through a single length: the pair of distal
 * augments (J), the pair of posterior augments with its coupler (q), or blocks with tray and insert (K).
 */
export interface Choice {
  /** Indices into the prepared lists, in the order in which the choice was built. */
  readonly medial: number;
  readonly lateral: number;
  readonly augments: number;
  readonly thicknessMm: number;
  readonly hinges: Hinges;
  readonly bottom: Bottom;
}

/** Thicknesses that may stand on each side, 0 = none, in mm. */
export type Thicknesses = readonly number[];

export interface Seat {
  /** The length (J, q or U) at which a side without augment is flush, mm. */
  readonly flush: PerCompartment<number>;
  /** -1: an augment lowers the flush level (femur); +1: raises it (tibia). */
  readonly augmentWay: 1 | -1;
  /** +1: moving up fills the space (tibia); -1: moving up cuts (femur). */
  readonly fillWay: 1 | -1;
  /** What else hangs on this length alone. */
  readonly also: (h: HingeSum) => void;
}

/** Hinges of the space under one side: cement above flush, deep cement, cut bone; limits of both. */
function chargeSpace(
  h: HingeSum,
  flush: number,
  { fillWay, prices, bounds }: { fillWay: 1 | -1; prices: Prices; bounds: Bounds },
): void {
  const pay = (at: number, weight: number, towards: 1 | -1) =>
    towards === 1 ? h.add(at, 0, weight) : h.add(at, weight, 0);
  const cutWay = fillWay === 1 ? -1 : 1;
  pay(flush + fillWay * prices.cement.free[1], prices.cement.weight, fillWay);
  pay(flush + fillWay * prices['cement-deep'].free[1], prices['cement-deep'].weight, fillWay);
  pay(flush + cutWay * prices['bone-cut'].free[1], prices['bone-cut'].weight, cutWay);
  if (fillWay === 1) h.within(flush - bounds.cutMm, flush + bounds.cementMm);
  else h.within(flush - bounds.cementMm, flush + bounds.cutMm);
}

/** What the augments of one pair cost, wherever they stand. */
export function augmentCost(thicknesses: Thicknesses, prices: Prices): number {
  const used = thicknesses.filter((t) => t > 0);
  return (
    prices['augment-count'].weight * used.length +
    prices['augment-thickness'].weight * used.reduce((a, b) => a + b, 0) +
    used.reduce((sum, t) => sum + charge(t, prices['augment-thick']), 0)
  );
}

/** Every pair of augments that the limits leave, with its hinges, cheapest bottom first. */
export function pairs(
  thicknesses: Thicknesses,
  seat: Seat,
  { prices, bounds }: { prices: Prices; bounds: Bounds },
): Choice[] {
  const found: Choice[] = [];
  const { flush, augmentWay, fillWay, also } = seat;
  const reach = bounds.cementMm + bounds.cutMm + 1e-9;
  thicknesses.forEach((tm, medial) => {
    const fm = flush.medial + augmentWay * tm;
    thicknesses.forEach((tl, lateral) => {
      const fl = flush.lateral + augmentWay * tl;
      if (Math.abs(fm - fl) > reach) return;
      const h = new HingeSum();
      chargeSpace(h, fm, { fillWay, prices, bounds });
      chargeSpace(h, fl, { fillWay, prices, bounds });
      h.base = augmentCost([tm, tl], prices);
      also(h);
      const hinges = h.done();
      const bottom = bottomOf(hinges);
      if (bottom)
        found.push({
          medial,
          lateral,
          augments: (tm > 0 ? 1 : 0) + (tl > 0 ? 1 : 0),
          thicknessMm: tm + tl,
          hinges,
          bottom,
        });
    });
  });
  return found.sort((a, b) => a.bottom.value - b.bottom.value || a.medial - b.medial || a.lateral - b.lateral);
}
