import { offsetByHand } from '../pinned/by-hand.ts';
import { charge } from '../price.ts';
import { takesSize } from '../tray-place.ts';
import type { Flange } from './choices.ts';
import { HingeSum } from './curve.ts';
import type { PreparedFemur } from './prepare.ts';
import { freeCurve } from './segment-curves.ts';
import type { Question } from './tables.ts';

/** What each coupler and the gap at the flange cost along q, for a femur that reaches back by so much, mm. */
export function flangesOf(part: PreparedFemur, reachMm: number, question: Question): readonly Flange[] {
  const { prepared, state, bounds, prices } = question;
  const hand = bounds.byHand ?? {};
  if (part.segment) return offsetByHand(0, hand) ? [{ coupler: null, curve: freeCurve, least: 0 }] : [];
  const weight = prices['flange-gap'];
  return prepared.couplers.flatMap((coupler): Flange[] => {
    if (coupler && !takesSize(coupler, part.femur.size)) return [];
    if (!offsetByHand(coupler?.offsetMm ?? 0, hand)) return [];
    const onCortex = state.anteriorToPosteriorMm - part.femur.apMm - reachMm - (coupler?.offsetMm ?? 0);
    const least = coupler ? charge(1, prices['offset-coupler']) : 0;
    const curve = new HingeSum()
      .fixedAt(hand.q)
      .within(onCortex - bounds.flangeGapMm, onCortex)
      .add(onCortex - weight.free[1], weight.weight, 0)
      .always(least)
      .done();
    return curve ? [{ coupler, curve, least }] : [];
  });
}
