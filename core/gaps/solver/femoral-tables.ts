import { type ByHand, NOTHING_BY_HAND, pairsByHand } from '../pinned/by-hand.ts';
import { SEGMENT_CLASS } from '../segment.ts';
import {
  type Behind,
  bare,
  type Choice,
  type Flange,
  type Pair,
  type PosteriorChoice,
  pairs,
  thicknessesOf,
} from './choices.ts';
import { highOf, lowOf } from './curve.ts';
import { flangesOf } from './flanges.ts';
import { HingeSum } from './hinge-sum.ts';
import type { Stance } from './holds.ts';
import { leastPosterior } from './least-posterior.ts';
import type { PreparedFemur } from './prepared.ts';
import type { Question } from './question.ts';
import { femoralSegmentCurve } from './segment-curves.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER, widthCost } from './whole-parts.ts';

const choiceOf = (pair: Pair): Choice => ({
  pair,
  low: lowOf(pair.curve),
  high: highOf(pair.curve),
  least: pair.least,
  curve: pair.curve,
});

/** Tables of the femur's choices for one bone state: each is built when first asked for, because many sizes share theirs. */
export class FemoralTables {
  private readonly question: Question;
  private readonly byHand: ByHand;
  private fitting: readonly PreparedFemur[] | null = null;
  private readonly widths: number[] = [];
  private readonly distalTable: (readonly Choice[])[] = [];
  private readonly distalPairTable: (readonly Pair[])[] = [];
  private readonly condyleTable: (readonly Pair[])[] = [];
  private readonly behindTable: Behind[] = [];
  private placesBehind = 0;
  private readonly leastBehindTable: number[] = [];

  constructor(question: Question) {
    this.question = question;
    this.byHand = question.bounds.byHand ?? NOTHING_BY_HAND;
  }

  /** Femurs of a width that goes on this bone. */
  get fits(): readonly PreparedFemur[] {
    const { prepared, state } = this.question;
    const { femurs, usualFemurs } = prepared;
    const come = state.femurClass === SEGMENT_CLASS ? femurs : usualFemurs;
    this.fitting ??= come[state.side].filter((femur) => this.width(femur) < NEVER);
    return this.fitting;
  }

  /** Cost of a femur's width on its bone; infinite beyond the limit of overhang, and for a segment in a lesser defect. */
  width(part: PreparedFemur): number {
    const { index } = part;
    this.widths[index] ??= this.widthOf(part);
    return this.widths[index];
  }

  private widthOf({ femur, segment }: PreparedFemur): number {
    const { state } = this.question;
    if (segment) return state.femurClass === SEGMENT_CLASS ? 0 : NEVER;
    return widthCost(this.question, { bone: 'femur', componentMm: femur.widthMm, boneMm: state.femurWidthMm });
  }

  /** Pairs of distal augments, hanging on J with the femoral joint line. */
  distal(part: PreparedFemur): readonly Choice[] {
    const { distalTable } = part;
    this.distalTable[distalTable] ??= this.distalPairs(part).map(choiceOf);
    return this.distalTable[distalTable];
  }

  /** The same pairs alone. */
  distalPairs(part: PreparedFemur): readonly Pair[] {
    const { distalTable } = part;
    this.distalPairTable[distalTable] ??= this.distalPairsOf(part);
    return this.distalPairTable[distalTable];
  }

  private distalPairsOf({ femur, distal, segment }: PreparedFemur): readonly Pair[] {
    const { state, prices } = this.question;
    const support = state.femurDistalMm;
    const also = (sum: HingeSum) => {
      sum.outside(prices['joint-line-femur']).outside(prices['joint-line-femur-far']);
      sum.fixedAt(this.byHand.j);
    };
    const flush = { medial: support.medial - femur.distalMm, lateral: support.lateral - femur.distalMm };
    const made = segment
      ? bare(femoralSegmentCurve(support, { lengthMm: femur.distalMm, price: prices['bone-replaced'], also }))
      : pairs(thicknessesOf(distal), { flush, augmentWay: -1, fillWay: -1, also }, this.question);
    return pairsByHand(made, distal, this.byHand.distal);
  }

  /** Pairs of posterior augments, hanging on q, cheapest at best first. */
  condyles(part: PreparedFemur): readonly Pair[] {
    const { condyleTable } = part;
    this.condyleTable[condyleTable] ??= this.condylesOf(part);
    return this.condyleTable[condyleTable];
  }

  private condylesOf({ femur, posterior, segment }: PreparedFemur): readonly Pair[] {
    const { medial, lateral } = this.question.state.femurPosteriorMm;
    const { q, posterior: wanted } = this.byHand;
    if (segment) {
      const free = new HingeSum().within(-segment.apFreeMm, segment.apFreeMm).fixedAt(q);
      return pairsByHand(bare(free.done()), posterior, wanted);
    }
    const flush = { medial: medial - femur.posteriorMm, lateral: lateral - femur.posteriorMm };
    const made = pairs(thicknessesOf(posterior), { flush, augmentWay: -1, fillWay: -1 }, this.question);
    return pairsByHand(made, posterior, wanted);
  }

  /** Pairs of posterior augments and couplers of a femur that stands so. */
  behind(part: PreparedFemur, { reachMm }: Stance): Behind {
    if (reachMm !== 0) return this.behindOf(part, reachMm);
    const { index } = part;
    this.behindTable[index] ??= this.behindOf(part, 0);
    return this.behindTable[index];
  }

  private behindOf(part: PreparedFemur, reachMm: number): Behind {
    const condyles = this.condyles(part);
    return { place: this.placesBehind++, condyles, flanges: flangesOf(part, { reachMm, condyles }, this.question) };
  }

  /** The least of them; infinite where their limits leave none. */
  leastBehind(behind: Behind): number {
    const { place } = behind;
    this.leastBehindTable[place] ??= leastPosterior(behind, 0);
    return this.leastBehindTable[place];
  }

  /** A pair of posterior augments with a coupler, hanging on q; null where their limits leave nothing. */
  posterior(pair: Pair, flange: Flange): PosteriorChoice | null {
    const least = leastOfTwo(flange.curve, pair.curve, 0, 0);
    if (least === NEVER) return null;
    const low = Math.max(lowOf(pair.curve), lowOf(flange.curve));
    const high = Math.min(highOf(pair.curve), highOf(flange.curve));
    return { pair, flange, low, high, least, curve: null };
  }
}
