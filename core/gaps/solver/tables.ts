import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import { type ByHand, pairsByHand } from '../pinned/by-hand.ts';
import type { Prices } from '../price.ts';
import { SEGMENT_CLASS, SEGMENT_REACH_MM } from '../segment.ts';
import { type ArcTerm, arcTermOf } from './arc-term.ts';
import type { Bounds } from './bounds.ts';
import {
  type Behind,
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
import { flangesOf } from './flanges.ts';
import { HoldMemory } from './hold-memory.ts';
import { flexionOf, heldBy, plainStance, type Stance, stancesOf, type WaysOf } from './holds.ts';
import type { Kind } from './kind.ts';
import { leastPosterior } from './least-posterior.ts';
import { cheapestSeats, insertCosts } from './least-seat.ts';
import type { Bearing, Prepared, PreparedFemur, PreparedTray, Seat } from './prepare.ts';
import { rememberAt } from './remember.ts';
import { femoralSegmentCurve, freeCurve, tibialSegmentCurve } from './segment-curves.ts';
import { type LevelTies, type Ties, tiesAt } from './ties.ts';
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

const choiceOf = (pair: Pair): Choice => ({
  pair,
  low: lowOf(pair.curve),
  high: highOf(pair.curve),
  least: pair.least,
  curve: pair.curve,
});

const NOTHING: ByHand = {};

/** A table for each level of constraint. */
const byLevel = <T>(): Record<ConstraintLevel, T[]> => ({ ps: [], vvc: [], hinge: [] });

/**
 * The small tables into which the minimum splits for one bone state: each is built when first asked for and kept,
 * because many sizes share their thicknesses.
 */
export class Tables {
  readonly question: Question;
  /** What the bearing's height costs on the tibia; on a segment within its reach. */
  private readonly tibialLine: Curve;
  private readonly segmentLine: Curve;
  private readonly distalTable: (readonly Choice[])[] = [];
  private readonly distalPairTable: (readonly Pair[])[] = [];
  private readonly condyleTable: (readonly Pair[])[] = [];
  private readonly blockTable: (readonly Pair[])[] = [];
  private fitting: readonly PreparedFemur[] | null = null;
  private readonly femurWidths: number[] = [];
  private readonly trayWidths: number[] = [];
  private readonly leastTrayWidths: number[] = [];
  private readonly bearingTable: (readonly Bearing[])[] = [];
  private readonly insertTable: (readonly number[])[] = [];
  private readonly seatTable: ReturnType<typeof cheapestSeats>[] = [];
  private readonly behindTable: Behind[] = [];
  private placesBehind = 0;
  private readonly leastBehindTable: number[] = [];
  private readonly plainTable = byLevel<readonly Stance[]>();
  private readonly stanceTable = byLevel<readonly Stance[]>();
  private readonly trayTable = byLevel<TrayHolds>();
  private readonly tieTable: Partial<Record<ConstraintLevel, LevelTies>> = {};
  private readonly ways: WaysOf;

  constructor(question: Question) {
    this.question = question;
    const line = question.prices['joint-line-tibia'];
    const sum = new HingeSum();
    const along = () => sum.outside(line);
    this.tibialLine = along().done() ?? freeCurve;
    this.segmentLine = along().within(-SEGMENT_REACH_MM, SEGMENT_REACH_MM).done() ?? freeCurve;
    this.ways = waysByHand((question.memory ?? new HoldMemory()).of(question), question.bounds.byHand);
  }

  private get byHand(): ByHand {
    return this.question.bounds.byHand ?? NOTHING;
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
      : pairs(thicknesses(distal), { flush, augmentWay: -1, fillWay: -1, also }, this.question);
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
    const made = pairs(thicknesses(posterior), { flush, augmentWay: -1, fillWay: -1 }, this.question);
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

  /** Pairs of blocks under a tray, hanging on U, cheapest first. */
  blocks(part: PreparedTray): readonly Pair[] {
    const { blockTable } = part;
    this.blockTable[blockTable] ??= this.blocksOf(part);
    return this.blockTable[blockTable];
  }

  private blocksOf({ blocks, segment }: PreparedTray): readonly Pair[] {
    const { state, prices } = this.question;
    const flush = { medial: -state.tibiaMm.medial, lateral: -state.tibiaMm.lateral };
    const { u, blocks: wanted } = this.byHand;
    const also = (sum: HingeSum) => sum.fixedAt(u);
    const made = segment
      ? bare(tibialSegmentCurve(state.tibiaMm, { price: prices['bone-replaced'], also }))
      : pairs(thicknesses(blocks), { flush, augmentWay: 1, fillWay: 1, also }, this.question);
    return pairsByHand(made, blocks, wanted);
  }

  /** A pair of blocks with tray and insert, hanging on K with the tibial joint line. */
  tibial(pair: Pair, tray: PreparedTray, seat: Seat): TibialChoice {
    const { height, shiftMm } = seat;
    pair.raised ??= [];
    const known = pair.raised[height];
    if (known) return known;
    const line = this.lineUnder(tray);
    const made = {
      pair,
      line,
      shiftMm,
      low: Math.max(lowOf(pair.curve) + shiftMm, lowOf(line)),
      high: Math.min(highOf(pair.curve) + shiftMm, highOf(line)),
      least: this.leastTibial(pair, tray, seat),
      curve: null,
    };
    pair.raised[height] = made;
    return made;
  }

  /** The least of such a choice alone; infinite where its limits leave nothing. */
  leastTibial(pair: Pair, tray: PreparedTray, { height, shiftMm }: Seat): number {
    pair.leasts ??= [];
    const known = pair.leasts[height];
    if (known !== undefined) return known;
    const least = leastOfTwo(this.lineUnder(tray), pair.curve, shiftMm, 0);
    pair.leasts[height] = least;
    return least;
  }

  /** What the bearing's height costs over a tray. */
  lineUnder({ segment }: PreparedTray): Curve {
    return segment ? this.segmentLine : this.tibialLine;
  }

  /** Ways for a femur to stand at a level. */
  stances(femur: PreparedFemur, level: ConstraintLevel): readonly Stance[] {
    const { index } = femur;
    const table = this.stanceTable[level];
    table[index] ??= this.stancesOf(femur, level);
    return table[index];
  }

  private stancesOf(femur: PreparedFemur, level: ConstraintLevel): readonly Stance[] {
    const { state } = this.question;
    const { holdTable } = femur;
    const isFlexed = () => flexionOf(femur, this.ways(femur, level), state) !== 0;
    if (state.targetOutline || (state.femoralStemLimits && isFlexed()))
      return stancesOf(femur, this.ways(femur, level), state);
    const table = this.plainTable[level];
    table[holdTable] ??= [plainStance(heldBy(this.ways(femur, level)))];
    return table[holdTable];
  }

  /** What holds a tray at a level, with its width and its place on the bone; of one kind of coupler only where that is asked. */
  under(tray: PreparedTray, level: ConstraintLevel, allows?: Kind['underTray']): TrayHolds {
    if (allows) return this.holdsOf(tray, level, allows);
    const { index } = tray;
    const table = this.trayTable[level];
    table[index] ??= this.holdsOf(tray, level);
    return table[index];
  }

  private holdsOf(tray: PreparedTray, level: ConstraintLevel, allows?: Kind['underTray']): TrayHolds {
    return trayHolds(tray, this.ways(tray, level), { centredMm: this.trayWidth(tray), question: this.question, allows });
  }

  /** What ties the lengths at a level, one for each slope at which the limits leave something. */
  tiesAt(level: ConstraintLevel): LevelTies {
    this.tieTable[level] ??= tiesAt(level, this.question);
    return this.tieTable[level];
  }

  /** What is charged on mid-flexion; null where its weight is nothing. */
  arc(ties: Ties, { looserMm }: Stance): ArcTerm | null {
    const { state, prices } = this.question;
    if (!(prices.arc.weight > 0)) return null;
    for (const known of ties.arcs) if (known.looserMm === looserMm) return known.arc;
    const arc = arcTermOf(state, { opensMm: ties.opensMm, looserMm }, prices.arc);
    ties.arcs.push({ looserMm, arc });
    return arc;
  }

  /** Femurs of a width that goes on this bone. */
  get femurs(): readonly PreparedFemur[] {
    const { prepared, state } = this.question;
    const { femurs, usualFemurs } = prepared;
    const come = state.femurClass === SEGMENT_CLASS ? femurs : usualFemurs;
    this.fitting ??= come[state.side].filter((femur) => this.femurWidth(femur) < NEVER);
    return this.fitting;
  }

  /** Trays with their inserts that join a femur at a level, of a width that goes on this bone. */
  bearings({ bearings }: PreparedFemur, level: ConstraintLevel): readonly Bearing[] {
    const { table, all, usual } = bearings[level];
    const come = this.question.state.tibiaClass === SEGMENT_CLASS ? all : usual;
    this.bearingTable[table] ??= come.filter(({ tray }) => this.trayWidth(tray) < NEVER);
    return this.bearingTable[table];
  }

  /** Least that the width of a tray costs which joins a femur at a level. */
  leastTrayWidth(femur: PreparedFemur, level: ConstraintLevel): number {
    const { table } = femur.bearings[level];
    this.leastTrayWidths[table] ??= this.leastWidthOf(this.bearings(femur, level));
    return this.leastTrayWidths[table];
  }

  private leastWidthOf(bearings: readonly Bearing[]): number {
    let least = NEVER;
    for (const { tray } of bearings) least = Math.min(least, this.trayWidth(tray));
    return least;
  }

  /** Seats of a tray that are the cheapest at some price of height. */
  seats(bearing: Bearing): ReturnType<typeof cheapestSeats> {
    const { seatTable } = bearing;
    this.seatTable[seatTable] ??= cheapestSeats(bearing, this.insertCosts(bearing));
    return this.seatTable[seatTable];
  }

  /** What the insert of each seat of a tray costs; infinite where it is too thin. */
  insertCosts(bearing: Bearing): readonly number[] {
    const { seatTable } = bearing;
    this.insertTable[seatTable] ??= insertCosts(bearing, this.question);
    return this.insertTable[seatTable];
  }

  /** Cost of a femur's width on its bone; infinite beyond the limit of overhang, and for a segment in a lesser defect. */
  femurWidth(part: PreparedFemur): number {
    const { index } = part;
    this.femurWidths[index] ??= this.widthOfFemur(part);
    return this.femurWidths[index];
  }

  private widthOfFemur({ femur, segment }: PreparedFemur): number {
    const { state } = this.question;
    if (segment) return state.femurClass === SEGMENT_CLASS ? 0 : NEVER;
    return widthCost(this.question, { bone: 'femur', componentMm: femur.widthMm, boneMm: state.femurWidthMm });
  }

  /** The same of a tray over the middle of its bone. */
  trayWidth(part: PreparedTray): number {
    const { index } = part;
    this.trayWidths[index] ??= this.widthOfTray(part);
    return this.trayWidths[index];
  }

  private widthOfTray({ tray, segment, side }: PreparedTray): number {
    const { state } = this.question;
    if (side !== 'both' && side !== state.side) return NEVER;
    if (segment) return state.tibiaClass === SEGMENT_CLASS ? 0 : NEVER;
    return widthCost(this.question, { bone: 'tray', componentMm: tray.widthMm, boneMm: state.tibiaWidthMm });
  }
}
