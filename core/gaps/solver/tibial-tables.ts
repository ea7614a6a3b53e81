import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { type ByHand, NOTHING_BY_HAND, pairsByHand } from '../pinned/by-hand.ts';
import { SEGMENT_CLASS, SEGMENT_REACH_MM } from '../segment.ts';
import { bare, type Pair, pairs, type TibialChoice, thicknessesOf } from './choices.ts';
import { type Curve, highOf, lowOf } from './curve.ts';
import { HingeSum } from './hinge-sum.ts';
import { cheapestSeats, insertCosts, type SeatPoint } from './least-seat.ts';
import type { Bearing, Bearings, PreparedFemur, PreparedTray, Seat } from './prepared.ts';
import type { Question } from './question.ts';
import { freeCurve, tibialSegmentCurve } from './segment-curves.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER, widthCost } from './whole-parts.ts';

/** Tables of the tibia's choices for one bone state: each is built when first asked for, because many sizes share theirs. */
export class TibialTables {
  private readonly question: Question;
  private readonly byHand: ByHand;
  /** What the bearing's height costs on the tibia; on a segment within its reach. */
  private readonly usualLine: Curve;
  private readonly segmentLine: Curve;
  private readonly widths: number[] = [];
  private readonly leastWidths: number[] = [];
  private readonly bearingTable: (readonly Bearing[])[] = [];
  private readonly insertTable: (readonly number[])[] = [];
  private readonly seatTable: (readonly SeatPoint[])[] = [];
  private readonly blockTable: (readonly Pair[])[] = [];

  constructor(question: Question) {
    this.question = question;
    this.byHand = question.bounds.byHand ?? NOTHING_BY_HAND;
    const sum = new HingeSum();
    const line = question.prices['joint-line-tibia'];
    this.usualLine = sum.outside(line).done() ?? freeCurve;
    this.segmentLine = sum.outside(line).within(-SEGMENT_REACH_MM, SEGMENT_REACH_MM).done() ?? freeCurve;
  }

  /** Trays with their inserts that join a femur at a level, of a width that goes on this bone. */
  bearings({ bearings }: PreparedFemur, level: ConstraintLevel): readonly Bearing[] {
    const joined = bearings[level];
    const { table } = joined;
    this.bearingTable[table] ??= this.fitting(joined);
    return this.bearingTable[table];
  }

  private fitting(joined: Bearings): readonly Bearing[] {
    const come = this.question.state.tibiaClass === SEGMENT_CLASS ? joined.all : joined.usual;
    return come.filter(({ tray }) => this.width(tray) < NEVER);
  }

  /** Least that the width of a tray costs which joins a femur at a level. */
  leastWidth(femur: PreparedFemur, level: ConstraintLevel): number {
    const { table } = femur.bearings[level];
    this.leastWidths[table] ??= this.leastWidthOf(this.bearings(femur, level));
    return this.leastWidths[table];
  }

  private leastWidthOf(bearings: readonly Bearing[]): number {
    let least = NEVER;
    for (const { tray } of bearings) least = Math.min(least, this.width(tray));
    return least;
  }

  /** Seats of a tray that are the cheapest at some price of height. */
  seats(bearing: Bearing): readonly SeatPoint[] {
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

  /** Cost of a tray's width over the middle of its bone; infinite beyond the limit of overhang, and for a segment in a lesser defect. */
  width(part: PreparedTray): number {
    const { index } = part;
    this.widths[index] ??= this.widthOf(part);
    return this.widths[index];
  }

  private widthOf({ tray, segment, side }: PreparedTray): number {
    const { state } = this.question;
    if (side !== 'both' && side !== state.side) return NEVER;
    if (segment) return state.tibiaClass === SEGMENT_CLASS ? 0 : NEVER;
    return widthCost(this.question, { bone: 'tray', componentMm: tray.widthMm, boneMm: state.tibiaWidthMm });
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
      : pairs(thicknessesOf(blocks), { flush, augmentWay: 1, fillWay: 1, also }, this.question);
    return pairsByHand(made, blocks, wanted);
  }

  /** A pair of blocks with tray and insert, hanging on K with the tibial joint line. */
  choice(pair: Pair, tray: PreparedTray, seat: Seat): TibialChoice {
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
      least: this.leastOf(pair, tray, seat),
      curve: null,
    };
    pair.raised[height] = made;
    return made;
  }

  /** The least of such a choice alone; infinite where its limits leave nothing. */
  leastOf(pair: Pair, tray: PreparedTray, { height, shiftMm }: Seat): number {
    pair.leasts ??= [];
    const known = pair.leasts[height];
    if (known !== undefined) return known;
    const least = leastOfTwo(this.lineUnder(tray), pair.curve, shiftMm, 0);
    pair.leasts[height] = least;
    return least;
  }

  /** What the bearing's height costs over a tray. */
  lineUnder({ segment }: PreparedTray): Curve {
    return segment ? this.segmentLine : this.usualLine;
  }
}
