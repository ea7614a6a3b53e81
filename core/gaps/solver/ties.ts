import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { slopeOpeningMm } from '../laxity.ts';
import type { ArcTerm } from './arc-term.ts';
import { acceptedGapDifferenceMm, acceptedOpeningMm } from './bounds.ts';
import { type Curve, leastAt, NO_LIMIT } from './curve.ts';
import { HingeSum } from './hinge-sum.ts';
import type { Question } from './question.ts';
import { NEVER } from './whole-parts.ts';

/** What is charged on the differences of J, q and K at one level and one slope. */
export interface Ties {
  readonly level: ConstraintLevel;
  readonly slopeDeg: number;
  /** What the slope opens at 90 degrees, mm. */
  readonly opensMm: number;
  readonly jLessK: Curve;
  readonly qLessK: Curve;
  readonly qLessJ: Curve;
  /** The least that the three cost together, whatever the lengths. */
  readonly least: number;
  /** What is charged on mid-flexion at this slope, for each shape of femur that was asked for. */
  readonly arcs: { readonly looserMm: readonly number[]; readonly arc: ArcTerm }[];
}

const sum = new HingeSum();

const mean = (p: { medial: number; lateral: number }): number => (p.medial + p.lateral) / 2;

/** The ties at one level, by slope; those whose limits leave nothing are left out. */
export interface LevelTies {
  readonly all: readonly Ties[];
  /** The least of them; infinite where there are none. */
  readonly least: number;
}

/**
 * Laxity in extension hangs on J - K, in flexion on q - K, flexion less extension on q - J (spec section 4). The slope
 * changes flexion alone.
 */
export function tiesAt(level: ConstraintLevel, question: Question): LevelTies {
  const { extensionLaxityMm: e } = question.state;
  const { prices, bounds, prepared } = question;
  sum.within(NO_LIMIT.low, acceptedOpeningMm(bounds, level) - Math.max(e.medial, e.lateral));
  sum.outside(prices['laxity-extension-medial'], e.medial);
  const jLessK = sum.outside(prices['laxity-extension-lateral'], e.lateral).done();
  const all: Ties[] = [];
  let least = NEVER;
  if (jLessK)
    for (const slopeDeg of prepared.catalogue.limits.slopeDeg) {
      const ties = tiesOf({ level, slopeDeg, jLessK }, question);
      if (!ties) continue;
      all.push(ties);
      least = Math.min(least, ties.least);
    }
  return { all, least };
}

/** Null where the limits of the level contradict each other for every seating. */
function tiesOf(at: Pick<Ties, 'level' | 'slopeDeg' | 'jLessK'>, { state, prices, bounds }: Question): Ties | null {
  const { extensionLaxityMm: e, flexionLaxityMm: f } = state;
  const opensMm = slopeOpeningMm({
    slopeDeg: at.slopeDeg,
    referenceSlopeDeg: state.referenceSlopeDeg,
    contactBehindMm: state.flexionContactBehindMm,
  });
  sum.outside(prices['laxity-flexion-medial'], f.medial + opensMm);
  const qLessK = sum.outside(prices['laxity-flexion-lateral'], f.lateral + opensMm).done();
  const more = mean(f) + opensMm - mean(e);
  sum.within(NO_LIMIT.low, acceptedGapDifferenceMm(bounds, at.level) - more);
  const qLessJ = sum.outside(prices['flexion-extension'], more).done();
  if (!(qLessK && qLessJ)) return null;
  const { level, slopeDeg, jLessK } = at;
  const least = leastAt(jLessK, 0) + leastAt(qLessK, 0) + leastAt(qLessJ, 0);
  return { level, slopeDeg, opensMm, jLessK, qLessK, qLessJ, least, arcs: [] };
}
