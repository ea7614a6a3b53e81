import type { PerCompartment } from '../../landmarks/side.ts';
import { greatestTrayMm, leastProximalMm, SEGMENT_REACH_MM } from '../segment.ts';
import type { Weight } from '../weights.ts';
import { type Curve, NO_LIMIT } from './curve.ts';
import { HingeSum } from './hinge-sum.ts';

const mean = (p: PerCompartment<number>): number => (p.medial + p.lateral) / 2;

/** Costs nothing anywhere. */
export const freeCurve: Curve = { at: [0], value: [0], slope: [0, 0] };

/**
 * What a distal femoral component of one length costs along J (GAP-24): the bone that it replaces, and what is charged
 * on J besides; within reach of the target, its cut in sound bone. Null where the limits leave nothing.
 *
 * @param supportMm D, mm proximal of the target joint line.
 */
export function femoralSegmentCurve(
  supportMm: PerCompartment<number>,
  { lengthMm, price, also }: { lengthMm: number; price: Weight; also: (sum: HingeSum) => void },
): Curve | null {
  const sum = new HingeSum();
  sum.within(Math.max(-SEGMENT_REACH_MM, leastProximalMm(supportMm, lengthMm)), SEGMENT_REACH_MM);
  // Replaced: J + length less the mean support.
  sum.add(mean(supportMm) - lengthMm + price.free[1], 0, price.weight);
  also(sum);
  return sum.done();
}

/**
 * What a proximal tibial component costs along U (GAP-25): the bone that it replaces, and what is asked of U besides;
 * its cut in sound bone.
 *
 * @param supportMm T, mm distal of the target joint line.
 */
export function tibialSegmentCurve(
  supportMm: PerCompartment<number>,
  { price, also }: { price: Weight; also: (sum: HingeSum) => void },
): Curve | null {
  const sum = new HingeSum().within(NO_LIMIT.low, greatestTrayMm(supportMm));
  also(sum);
  // Replaced: -U less the mean support.
  return sum.add(-mean(supportMm) - price.free[1], price.weight, 0).done();
}
