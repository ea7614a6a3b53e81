import { type ArcTerm, arcCost } from './arc-term.ts';
import { costAt, type Lengths, type Settled, type Tied } from './settle.ts';
import { Walker } from './walker.ts';

/** Far more corners than any descent passes. */
const MOST_STEPS = 1000;

const walker = new Walker();

/**
 * The exact least cost of the three lengths with the arc of motion (docs/decisions/solver.md). From a point that keeps
 * the limits it walks along the lines in which the bending planes meet, as long as that lowers the cost. The cost is
 * convex, and at a corner its slope is linear within each cone that those lines span: if none of them leads down,
 * nothing does.
 *
 * @param from a point that keeps the limits, mm: where the lengths settle without the arc.
 */
export function settleInArc(t: Tied, arc: ArcTerm, from: Lengths): Settled {
  walker.start(t, arc, from);
  for (let steps = 0; walker.findsWay(); steps++) {
    if (steps > MOST_STEPS) throw new Error('Settling in the arc did not end: a length has no limit.');
    walker.walk();
  }
  const { j, q, k } = walker;
  return { j, q, k, cost: costAt(t, { j, q, k }) + arcCost(arc, { j, q, k }) };
}
