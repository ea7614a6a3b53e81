import type { ConstraintLevel, Insert } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { slopeOpeningMm } from '../laxity.ts';
import { overhangMm } from '../seating.ts';
import type { Choice, PosteriorChoice, TibialChoice } from './choices.ts';
import type { Stance } from './holds.ts';
import type { PreparedFemur, PreparedTray, Seat } from './prepared.ts';
import type { Question } from './question.ts';
import type { Settled, Tied } from './settle.ts';
import type { TrayHold } from './tray-holds.ts';

/** A full choice of parts and where it settles. */
export interface Found {
  readonly level: ConstraintLevel;
  readonly femur: PreparedFemur;
  readonly tray: PreparedTray;
  readonly insert: Insert;
  readonly seat: Seat;
  readonly slopeDeg: number;
  readonly stance: Stance;
  readonly distal: Choice;
  readonly posterior: PosteriorChoice;
  readonly tibial: TibialChoice;
  /** What holds the tray. */
  readonly hold: TrayHold;
  readonly tied: Tied;
  readonly settled: Settled;
  /** Everything but the three lengths. */
  readonly parts: number;
  readonly cost: number;
}

/** Costs closer than this are equal, and the stated order decides. */
export const SAME_COST = 1e-9;

/** Rounding is no difference: to a millionth. */
const millionths = (x: number): number => Math.round(x * 1e6);

/** The parts of a construct, wherever they settle. */
export type FullParts = Pick<Found, 'level' | 'femur' | 'tray' | 'slopeDeg' | 'distal' | 'posterior' | 'tibial'>;

/** How far the two components are from covering their bones, mm. */
const offCover = ({ femur, tray }: FullParts, { state }: Question): number =>
  millionths(
    Math.abs(overhangMm(femur.femur.widthMm, state.femurWidthMm)) +
      Math.abs(overhangMm(tray.tray.widthMm, state.tibiaWidthMm)),
  );

/** The worst of the four laxities from the middle of its window, in halves of the window. */
function offMiddle(f: Found, { state, prices }: Question): number {
  const { j, q, k } = f.settled;
  const opens = slopeOpeningMm({
    slopeDeg: f.slopeDeg,
    referenceSlopeDeg: state.referenceSlopeDeg,
    contactBehindMm: state.flexionContactBehindMm,
  });
  const off = (laxity: number, id: 'extension' | 'flexion', side: 'medial' | 'lateral'): number => {
    const [low, high] = prices[`laxity-${id}-${side}`].free;
    return Math.abs(laxity - (low + high) / 2) / Math.max((high - low) / 2, 1e-3);
  };
  const laxity = (['medial', 'lateral'] as const).flatMap((side) => [
    off(state.extensionLaxityMm[side] + j - k, 'extension', side),
    off(state.flexionLaxityMm[side] + q - k + opens, 'flexion', side),
  ]);
  return millionths(Math.max(...laxity));
}

export const augmentsOf = (f: Pick<FullParts, 'distal' | 'posterior' | 'tibial'>): number =>
  f.distal.pair.augments + f.posterior.pair.augments + f.tibial.pair.augments;

/** What the parts alone decide, first things first. */
const orderOfParts = (f: FullParts, question: Question): readonly number[] => [
  levelRank(f.level),
  augmentsOf(f),
  f.distal.pair.thicknessMm + f.posterior.pair.thicknessMm + f.tibial.pair.thicknessMm,
  f.posterior.flange.coupler?.offsetMm ?? 0,
  Math.abs(f.slopeDeg - question.state.referenceSlopeDeg),
  f.slopeDeg,
  offCover(f, question),
];

/** What is left where the parts decide nothing. */
const orderOfRest = (f: Found, question: Question): readonly number[] => [
  offMiddle(f, question),
  f.insert.labelMm,
  f.femur.index,
  f.tray.index,
  f.distal.pair.medial,
  f.posterior.pair.medial,
  f.tibial.pair.medial,
  Math.abs(f.stance.flexionDeg),
];

/** Which of two lists is the smaller by the first number in which they differ: below 0 the first, above 0 the second. */
function compared(x: readonly number[], y: readonly number[]): number {
  for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return (x[i] as number) < (y[i] as number) ? -1 : 1;
  return 0;
}

const comparedByParts = (a: FullParts, b: FullParts, question: Question): number =>
  compared(orderOfParts(a, question), orderOfParts(b, question));

/**
 * Whether `a` is to be preferred to `b`. Order among equal costs (GAP-20): less constraint, fewer augments, thinner augments,
 * smaller offset, slope nearer the reference, better cover of the bones, laxity nearer the middle of its windows, thinner
 * insert, then the catalogue's own order, the medial side first, last a component that is not flexed.
 */
export function precedes(a: Found, b: Found, question: Question): boolean {
  if (Math.abs(a.cost - b.cost) > SAME_COST) return a.cost < b.cost;
  const byParts = comparedByParts(a, b, question);
  return byParts < 0 || (byParts === 0 && compared(orderOfRest(a, question), orderOfRest(b, question)) < 0);
}

/** Whether at equal cost `best` is to be preferred to everything that these parts can settle as. */
export const outranks = (best: Found, parts: FullParts, question: Question): boolean =>
  comparedByParts(best, parts, question) < 0;
