import type { OffsetCoupler } from '../../catalogue/catalogue.ts';
import { offsetByHand } from '../pinned/by-hand.ts';
import { charge } from '../price.ts';
import type { Flange, Pair } from './choices.ts';
import { type Curve, highOf, lowOf, SAME_MM } from './curve.ts';
import { HingeSum } from './hinge-sum.ts';
import type { PreparedFemur } from './prepared.ts';
import type { Question } from './question.ts';
import { freeCurve } from './segment-curves.ts';

const sum = new HingeSum();

/**
 * What each coupler and the gap at the flange cost along q, for a femur that reaches back by so much, mm. Couplers that meet
 * no pair of posterior augments are left out.
 */
export function flangesOf(
  part: PreparedFemur,
  { reachMm, condyles }: { readonly reachMm: number; readonly condyles: readonly Pair[] },
  question: Question,
): readonly Flange[] {
  const { state, bounds, prices } = question;
  const hand = bounds.byHand ?? {};
  if (part.segment) return offsetByHand(0, hand) ? [{ coupler: null, curve: freeCurve, least: 0 }] : [];
  const weight = prices['flange-gap'];
  const found: Flange[] = [];
  for (const coupler of part.couplers) {
    if (!offsetByHand(coupler?.offsetMm ?? 0, hand)) continue;
    const onCortex = state.anteriorToPosteriorMm - part.femur.apMm - reachMm - (coupler?.offsetMm ?? 0);
    if (!meetsAny(condyles, onCortex - bounds.flangeGapMm, onCortex)) continue;
    const least = costOf(coupler, question);
    const curve = sum
      .fixedAt(hand.q)
      .within(onCortex - bounds.flangeGapMm, onCortex)
      .add(onCortex - weight.free[1], weight.weight, 0)
      .always(least)
      .done();
    if (curve) found.push({ coupler, curve, least });
  }
  return found;
}

const costOf = (coupler: OffsetCoupler | null, { prices }: Question): number =>
  coupler ? charge(1, prices['offset-coupler']) : 0;

/** Whether the limits of any pair leave something between two places, mm. */
function meetsAny(pairs: readonly Pair[], low: number, high: number): boolean {
  for (const { curve } of pairs) if (meets(curve, low, high)) return true;
  return false;
}

const meets = (curve: Curve, low: number, high: number): boolean =>
  lowOf(curve) <= high + SAME_MM && highOf(curve) >= low - SAME_MM;
