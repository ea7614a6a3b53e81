import { type ArcTerm, arcCost } from './arc-term.ts';
import { type Branch, femoralLoad, type TibialCandidate } from './candidates.ts';
import type { Choice, PosteriorChoice, TibialChoice } from './choices.ts';
import { bottomFrom, type Curve } from './curve.ts';
import type { Found } from './order.ts';
import { settle, type Tied } from './settle.ts';
import { settleInArc } from './settle-in-arc.ts';
import { sumOfTwo } from './two-curves.ts';
import { NEVER } from './whole-parts.ts';

/** The curve of q of a posterior choice; null where its limits touch no more than by rounding. */
function curveOfQ(choice: PosteriorChoice): Curve | null {
  choice.curve ??= sumOfTwo(choice.flange.curve, choice.pair.curve, 0);
  return choice.curve;
}

/** The curve of K of a tibial choice. */
function curveOfK(choice: TibialChoice): Curve | null {
  choice.curve ??= sumOfTwo(choice.line, choice.pair.curve, choice.shiftMm);
  return choice.curve;
}

/** A full choice of parts. */
export interface Parts {
  readonly branch: Branch;
  readonly distal: Choice;
  readonly posterior: PosteriorChoice;
  readonly tibial: TibialCandidate;
  /** The tibial candidate as a choice of K. */
  readonly choice: TibialChoice;
}

/**
 * Where a full choice of parts settles without the arc of motion, exactly, and what it costs; null where the limits
 * contradict each other.
 */
export function settleParts({ branch, distal, posterior, tibial, choice }: Parts): Found | null {
  const { ties, femur, stance } = branch;
  const q = curveOfQ(posterior);
  const k = curveOfK(choice);
  if (!q || !k) return null;
  const { jLessK, qLessK, qLessJ } = ties;
  const tied: Tied = { j: distal.pair.curve, q, k, jLessK, qLessK, qLessJ };
  const settled = settle(tied, { j: bottomFrom(tied.j), q: bottomFrom(q), k: bottomFrom(k) });
  if (!settled) return null;
  const held = stance.held[femoralLoad(distal, posterior)]?.cost ?? NEVER;
  const parts = branch.parts + held + tibial.parts;
  const { tray, seat, hold } = tibial;
  const { level, slopeDeg } = ties;
  const cost = parts + settled.cost;
  return {
    level,
    femur,
    tray,
    seat,
    insert: seat.insert,
    slopeDeg,
    stance,
    distal,
    posterior,
    tibial: choice,
    hold,
    tied,
    settled,
    parts,
    cost,
  };
}

/** The same construct where it settles with the arc of motion, which can only add; itself where the arc costs nothing. */
export function withArc(found: Found, arc: ArcTerm | null): Found {
  if (!arc || arcCost(arc, found.settled) === 0) return found;
  const settled = settleInArc(found.tied, arc, found.settled);
  return { ...found, settled, cost: found.parts + settled.cost };
}
