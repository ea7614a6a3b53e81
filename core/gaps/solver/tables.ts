import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import { type ByHand, offsetByHand, pairsByHand } from '../pinned/by-hand.ts';
import { charge, type Prices } from '../price.ts';
import { SEGMENT_CLASS, SEGMENT_REACH_MM } from '../segment.ts';
import { takesSize } from '../tray-place.ts';
import { type ArcTerm, arcTermOf } from './arc-term.ts';
import type { Bounds } from './bounds.ts';
import {
  bare,
  type Choice,
  type Flange,
  type Pair,
  type PosteriorChoice,
  pairs,
  type Thicknesses,
  type TibialChoice,
} from './choices.ts';
import { type Curve, HingeSum, highOf, lowOf } from './curve.ts';
import { flexionOf, HoldMemory, heldBy, plainStance, type Stance, stancesOf, type Ways } from './holds.ts';
import type { Kind } from './kind.ts';
import type { Prepared, PreparedFemur, PreparedTray, Seat } from './prepare.ts';
import { remember } from './remember.ts';
import { femoralSegmentCurve, freeCurve, tibialSegmentCurve } from './segment-curves.ts';
import { type Ties, tiesOf } from './ties.ts';
import { type TrayHolds, trayHolds } from './tray-holds.ts';
import { leastOfTwo } from './two-curves.ts';
import { waysByHand } from './ways-by-hand.ts';
import { NEVER, widthCost } from './whole-parts.ts';

export interface Question {
  readonly prepared: Prepared;
  readonly state: BoneState;
  readonly prices: Prices;
  readonly bounds: Bounds;
  /** What holds bones, kept from other states of the same catalogue and weights; absent = nothing kept. */
  readonly memory?: HoldMemory;
}

const thicknesses = (parts: readonly ({ readonly thicknessMm: number } | null)[]): Thicknesses =>
  parts.map((p) => p?.thicknessMm ?? 0);

const NOTHING: ByHand = {};

/** Holds a length where it was fixed by hand. */
const fixedAt = (sum: HingeSum, at: number | undefined): HingeSum => (at === undefined ? sum : sum.within(at, at));

/**
 * The small tables into which the minimum splits for one bone state: each is built when first asked for and kept,
 * because many sizes share their thicknesses.
 */
export class Tables {
  readonly question: Question;
  /** What the bearing's height costs on the tibia; on a segment within its reach. */
  private readonly tibialLine: Curve;
  private readonly segmentLine: Curve;
  private readonly distalTable = new Map<string, readonly Choice[]>();
  private readonly condyleTable = new Map<string, readonly Pair[]>();
  private readonly underTable = new Map<string, readonly Pair[]>();
  private readonly plainTable = new Map<Ways, readonly Stance[]>();
  private readonly stanceTable = new Map<PreparedFemur, Map<ConstraintLevel, readonly Stance[]>>();
  private readonly trayTable = new Map<PreparedTray, Map<ConstraintLevel, TrayHolds>>();
  private readonly tieTable = new Map<string, Ties | null>();
  private readonly ways: ReturnType<HoldMemory['of']>;

  constructor(question: Question) {
    this.question = question;
    const line = question.prices['joint-line-tibia'];
    const sum = new HingeSum();
    const along = () => sum.add(line.free[0], line.weight, 0).add(line.free[1], 0, line.weight);
    this.tibialLine = along().done() ?? freeCurve;
    this.segmentLine = along().within(-SEGMENT_REACH_MM, SEGMENT_REACH_MM).done() ?? freeCurve;
    this.ways = waysByHand((question.memory ?? new HoldMemory()).of(question), question.bounds.byHand);
  }

  private get byHand(): ByHand {
    return this.question.bounds.byHand ?? NOTHING;
  }

  /** Pairs of distal augments, hanging on J with the femoral joint line. */
  distal({ femur, distal, distalKey, segment }: PreparedFemur): readonly Choice[] {
    return remember(this.distalTable, distalKey, () => {
      const { state, prices } = this.question;
      const support = state.femurDistalMm;
      const also = (sum: HingeSum) => {
        for (const weight of [prices['joint-line-femur'], prices['joint-line-femur-far']])
          sum.add(weight.free[0], weight.weight, 0).add(weight.free[1], 0, weight.weight);
        fixedAt(sum, this.byHand.j);
      };
      const flush = { medial: support.medial - femur.distalMm, lateral: support.lateral - femur.distalMm };
      const made = segment
        ? bare(femoralSegmentCurve(support, { lengthMm: femur.distalMm, price: prices['bone-replaced'], also }))
        : pairs(thicknesses(distal), { flush, augmentWay: -1, fillWay: -1, also }, this.question);
      return pairsByHand(made, distal, this.byHand.distal).map((pair) => ({
        pair,
        low: lowOf(pair.curve),
        high: highOf(pair.curve),
        least: pair.least,

        curve: pair.curve,
      }));
    });
  }

  /** Pairs of posterior augments, hanging on q, cheapest at best first. */
  condyles({ femur, posterior, posteriorKey, segment }: PreparedFemur): readonly Pair[] {
    return remember(this.condyleTable, posteriorKey, () => {
      const { medial, lateral } = this.question.state.femurPosteriorMm;
      const { q, posterior: wanted } = this.byHand;
      if (segment) {
        const free = fixedAt(new HingeSum().within(-segment.apFreeMm, segment.apFreeMm), q);
        return pairsByHand(bare(free.done()), posterior, wanted);
      }
      const flush = { medial: medial - femur.posteriorMm, lateral: lateral - femur.posteriorMm };
      const made = pairs(thicknesses(posterior), { flush, augmentWay: -1, fillWay: -1 }, this.question);
      return pairsByHand(made, posterior, wanted);
    });
  }

  /** What each coupler and the gap at the flange cost along q, for a femur that reaches back by so much. */
  flanges(part: PreparedFemur, reachMm: number): readonly Flange[] {
    const { prepared, state, bounds, prices } = this.question;
    const hand = this.byHand;
    if (part.segment) return offsetByHand(0, hand) ? [{ coupler: null, curve: freeCurve, least: 0 }] : [];
    const weight = prices['flange-gap'];
    return prepared.couplers.flatMap((coupler): Flange[] => {
      if (coupler && !takesSize(coupler, part.femur.size)) return [];
      if (!offsetByHand(coupler?.offsetMm ?? 0, hand)) return [];
      const onCortex = state.anteriorToPosteriorMm - part.femur.apMm - reachMm - (coupler?.offsetMm ?? 0);
      const least = coupler ? charge(1, prices['offset-coupler']) : 0;
      const curve = fixedAt(new HingeSum(), hand.q)
        .within(onCortex - bounds.flangeGapMm, onCortex)
        .add(onCortex - weight.free[1], weight.weight, 0)
        .always(least)
        .done();
      return curve ? [{ coupler, curve, least }] : [];
    });
  }

  /** A pair of posterior augments with a coupler, hanging on q; null where their limits leave nothing. */
  posterior(pair: Pair, flange: Flange): PosteriorChoice | null {
    const least = leastOfTwo({ own: flange.curve, moved: pair.curve, shift: 0 }, 0);
    if (least === NEVER) return null;
    const low = Math.max(lowOf(pair.curve), lowOf(flange.curve));
    const high = Math.min(highOf(pair.curve), highOf(flange.curve));
    return { pair, flange, low, high, least, curve: null };
  }

  /** Pairs of blocks under a tray, hanging on U, cheapest first. */
  blocks({ blocks, blockKey, segment }: PreparedTray): readonly Pair[] {
    return remember(this.underTable, blockKey, () => {
      const { state, prices } = this.question;
      const flush = { medial: -state.tibiaMm.medial, lateral: -state.tibiaMm.lateral };
      const { u, blocks: wanted } = this.byHand;
      const also = (sum: HingeSum) => fixedAt(sum, u);
      const made = segment
        ? bare(tibialSegmentCurve(state.tibiaMm, { price: prices['bone-replaced'], also }))
        : pairs(thicknesses(blocks), { flush, augmentWay: 1, fillWay: 1, also }, this.question);
      return pairsByHand(made, blocks, wanted);
    });
  }

  /** A pair of blocks with tray and insert, hanging on K with the tibial joint line. */
  tibial(pair: Pair, { segment }: PreparedTray, { height, shiftMm }: Seat): TibialChoice {
    const known = pair.raised[height];
    if (known) return known;
    const line = segment ? this.segmentLine : this.tibialLine;
    const made = {
      pair,
      line,
      shiftMm,
      low: Math.max(lowOf(pair.curve) + shiftMm, lowOf(line)),
      high: Math.min(highOf(pair.curve) + shiftMm, highOf(line)),
      least: leastOfTwo({ own: line, moved: pair.curve, shift: shiftMm }, 0),
      curve: null,
    };
    pair.raised[height] = made;
    return made;
  }

  /** Ways for a femur to stand at a level. */
  stances(femur: PreparedFemur, level: ConstraintLevel): readonly Stance[] {
    const { state } = this.question;
    const ways = this.ways(femur, level);
    const bent = flexionOf(femur, ways, state);
    if (bent === 0 && !state.targetOutline) return remember(this.plainTable, ways, () => [plainStance(heldBy(ways))]);
    const ofFemur = remember(this.stanceTable, femur, () => new Map());
    return remember(ofFemur, level, () => stancesOf(femur, ways, state));
  }

  /** What holds a tray at a level, with its width and its place on the bone; of one kind of coupler only where that is asked. */
  under(tray: PreparedTray, level: ConstraintLevel, allows?: Kind['underTray']): TrayHolds {
    const make = () => {
      const asked = { centredMm: this.trayWidth(tray), question: this.question, allows };
      return trayHolds(tray, this.ways(tray, level), asked);
    };
    if (allows) return make();
    const ofTray = remember(this.trayTable, tray, () => new Map());
    return remember(ofTray, level, make);
  }

  ties(level: ConstraintLevel, slopeDeg: number): Ties | null {
    return remember(this.tieTable, `${level}|${slopeDeg}`, () =>
      tiesOf(this.question.state, { level, slopeDeg }, this.question),
    );
  }

  /** What is charged on mid-flexion; null where its weight is nothing. */
  arc({ opensMm }: Ties, { looserMm }: Stance): ArcTerm | null {
    const { state, prices } = this.question;
    return prices.arc.weight > 0 ? arcTermOf(state, { opensMm, looserMm }, prices.arc) : null;
  }

  /** Cost of a femur's width on its bone; infinite beyond the limit of overhang, and for a segment in a lesser defect. */
  femurWidth({ femur, segment }: PreparedFemur): number {
    const { state } = this.question;
    if (segment) return state.femurClass === SEGMENT_CLASS ? 0 : NEVER;
    return widthCost(this.question, { bone: 'femur', componentMm: femur.widthMm, boneMm: state.femurWidthMm });
  }

  /** The same of a tray over the middle of its bone. */
  private trayWidth({ tray, segment, side }: PreparedTray): number {
    const { state } = this.question;
    if (side !== 'both' && side !== state.side) return NEVER;
    if (segment) return state.tibiaClass === SEGMENT_CLASS ? 0 : NEVER;
    return widthCost(this.question, { bone: 'tray', componentMm: tray.widthMm, boneMm: state.tibiaWidthMm });
  }
}
