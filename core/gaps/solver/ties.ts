import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import { slopeOpeningMm } from '../laxity.ts';
import type { Prices } from '../price.ts';
import type { ArcTerm } from './arc-term.ts';
import { acceptedGapDifferenceMm, acceptedOpeningMm, type Bounds } from './bounds.ts';
import { type Curve, HingeSum, leastAt, NO_LIMIT } from './curve.ts';

/** What is charged on the differences of J, q and K at one level and one slope. */
export interface Ties {
  readonly level: ConstraintLevel;
  readonly slopeDeg: number;
  /** What the slope opens at 90 degrees, mm. */
  readonly opensMm: number;
  readonly jLessK: Curve;
  readonly qLessK: Curve;
  readonly qLessJ: Curve;
  /** The least that the three cost together, whatever the lengths. */
  readonly least: number;
  /** What is charged on mid-flexion at this slope, for each shape of femur that was asked for. */
  readonly arcs: { readonly looserMm: readonly number[]; readonly arc: ArcTerm }[];
}

const sum = new HingeSum();

const mean = (p: { medial: number; lateral: number }): number => (p.medial + p.lateral) / 2;

/**
 * Laxity in extension hangs on J - K, in flexion on q - K, flexion less extension on q - J (spec section 4).
 * Null where the limits of the level contradict each other for every seating.
 */
export function tiesOf(
  state: BoneState,
  at: { readonly level: ConstraintLevel; readonly slopeDeg: number },
  { prices, bounds }: { readonly prices: Prices; readonly bounds: Bounds },
): Ties | null {
  const e = state.extensionLaxityMm;
  const f = state.flexionLaxityMm;
  const opensMm = slopeOpeningMm({
    slopeDeg: at.slopeDeg,
    referenceSlopeDeg: state.referenceSlopeDeg,
    contactBehindMm: state.flexionContactBehindMm,
  });
  sum.within(NO_LIMIT.low, acceptedOpeningMm(bounds, at.level) - Math.max(e.medial, e.lateral));
  sum.outside(prices['laxity-extension-medial'], e.medial);
  const jLessK = sum.outside(prices['laxity-extension-lateral'], e.lateral).done();
  sum.outside(prices['laxity-flexion-medial'], f.medial + opensMm);
  const qLessK = sum.outside(prices['laxity-flexion-lateral'], f.lateral + opensMm).done();
  const more = mean(f) + opensMm - mean(e);
  sum.within(NO_LIMIT.low, acceptedGapDifferenceMm(bounds, at.level) - more);
  const qLessJ = sum.outside(prices['flexion-extension'], more).done();
  if (!(jLessK && qLessK && qLessJ)) return null;
  const least = leastAt(jLessK, 0) + leastAt(qLessK, 0) + leastAt(qLessJ, 0);
  return { ...at, opensMm, jLessK, qLessK, qLessJ, least, arcs: [] };
}
