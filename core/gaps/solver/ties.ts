import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import { slopeOpeningMm } from '../laxity.ts';
import type { Prices } from '../price.ts';
import type { Weight } from '../weights.ts';
import { acceptedGapDifferenceMm, acceptedOpeningMm, type Bounds } from './bounds.ts';
import { type Bottom, bottomOf, HingeSum, type Hinges, NO_LIMIT } from './hinges.ts';

/** What is charged on the differences of J, q and K at one level and one slope. */
export interface Ties {
  readonly jLessK: Hinges;
  readonly qLessK: Hinges;
  readonly qLessJ: Hinges;
  readonly jLessKBottom: Bottom;
  readonly qLessKBottom: Bottom;
  readonly qLessJBottom: Bottom;
}

const mean = (p: { medial: number; lateral: number }): number => (p.medial + p.lateral) / 2;

/** Charges a value `x + offset` outside its free zone. */
const outside = (h: HingeSum, weight: Weight, offset: number): HingeSum =>
  h.add(weight.free[0] - offset, weight.weight, 0).add(weight.free[1] - offset, 0, weight.weight);

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
  const opens = slopeOpeningMm({
    slopeDeg: at.slopeDeg,
    referenceSlopeDeg: state.referenceSlopeDeg,
    contactBehindMm: state.flexionContactBehindMm,
  });
  const extension = new HingeSum().within(
    NO_LIMIT.low,
    acceptedOpeningMm(bounds, at.level) - Math.max(e.medial, e.lateral),
  );
  outside(extension, prices['laxity-extension-medial'], e.medial);
  outside(extension, prices['laxity-extension-lateral'], e.lateral);
  const flexion = new HingeSum();
  outside(flexion, prices['laxity-flexion-medial'], f.medial + opens);
  outside(flexion, prices['laxity-flexion-lateral'], f.lateral + opens);
  const more = mean(f) + opens - mean(e);
  const difference = new HingeSum().within(NO_LIMIT.low, acceptedGapDifferenceMm(bounds, at.level) - more);
  outside(difference, prices['flexion-extension'], more);
  const jLessK = extension.done();
  const qLessK = flexion.done();
  const qLessJ = difference.done();
  const bottoms = [bottomOf(jLessK), bottomOf(qLessK), bottomOf(qLessJ)] as const;
  const [jLessKBottom, qLessKBottom, qLessJBottom] = bottoms;
  return jLessKBottom && qLessKBottom && qLessJBottom
    ? { jLessK, qLessK, qLessJ, jLessKBottom, qLessKBottom, qLessJBottom }
    : null;
}
