import type { ConstraintLevel, Insert } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { slopeOpeningMm } from '../laxity.ts';
import { overhangMm } from '../seating.ts';
import type { Choice } from './choices.ts';
import type { PreparedFemur, PreparedTray } from './prepare.ts';
import type { Settled } from './settle.ts';
import type { PosteriorChoice, Question, TibialChoice } from './tables.ts';

/** A full choice of parts and where it settles. */
export interface Found {
  readonly level: ConstraintLevel;
  readonly femur: PreparedFemur;
  readonly tray: PreparedTray;
  readonly insert: Insert;
  readonly slopeDeg: number;
  readonly distal: Choice;
  readonly posterior: PosteriorChoice;
  readonly tibial: TibialChoice;
  readonly settled: Settled;
  readonly cost: number;
}

/** Costs closer than this are equal, and the stated order decides. */
export const SAME_COST = 1e-9;

/** Rounding is no difference: to a millionth. */
const millionths = (x: number): number => Math.round(x * 1e6);

/**
 * How far the two components are from covering their bones, mm, and the worst of the four laxities from the middle of
 * its window, in halves of the window.
 */
function offIdeal(f: Found, { state, prices }: Question): readonly number[] {
  const { j, q, k } = f.settled;
  const cover =
    Math.abs(overhangMm(f.femur.femur.widthMm, state.femurWidthMm)) +
    Math.abs(overhangMm(f.tray.tray.widthMm, state.tibiaWidthMm));
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
  return [millionths(cover), millionths(Math.max(...laxity))];
}

/**
 * Order among equal costs (GAP-20): less constraint, fewer augments, thinner augments, smaller offset, slope nearer
 * the reference, better cover of the bones, laxity nearer the middle of its windows, thinner insert, then the
 * catalogue's own order, the medial side first.
 */
function order(f: Found, question: Question): readonly number[] {
  return [
    levelRank(f.level),
    f.distal.augments + f.posterior.augments + f.tibial.blocks.augments,
    f.distal.thicknessMm + f.posterior.thicknessMm + f.tibial.blocks.thicknessMm,
    f.posterior.coupler?.offsetMm ?? 0,
    Math.abs(f.slopeDeg - question.state.referenceSlopeDeg),
    f.slopeDeg,
    ...offIdeal(f, question),
    f.insert.labelMm,
    f.femur.index,
    f.tray.index,
    f.distal.medial,
    f.posterior.medial,
    f.tibial.blocks.medial,
  ];
}

/** Whether `a` is to be preferred to `b`. */
export function precedes(a: Found, b: Found, question: Question): boolean {
  if (Math.abs(a.cost - b.cost) > SAME_COST) return a.cost < b.cost;
  const x = order(a, question);
  const y = order(b, question);
  const at = x.findIndex((v, i) => v !== y[i]);
  return at >= 0 && (x[at] as number) < (y[at] as number);
}
