import type { Catalogue } from '../../catalogue/catalogue.ts';
import { leastConstraint, levelRank } from '../../constraint/least-constraint.ts';
import type { BoneState } from '../bone-state.ts';
import type { Construct, SolverSettings } from '../construct.ts';
import { pricesOf } from '../price.ts';
import { DEFAULT_SETTINGS } from '../solve.ts';
import { boundsOf } from '../solver/bounds.ts';
import { HoldMemory } from '../solver/hold-memory.ts';
import type { Found } from '../solver/order.ts';
import { prepare } from '../solver/prepare.ts';
import { samePair, tryAgain } from '../solver/recall.ts';
import { Search } from '../solver/search.ts';
import { Tables } from '../solver/tables.ts';
import type { Tension } from '../solver/tension.ts';
import { constructOf } from '../solver/to-construct.ts';
import type { WeightTable } from '../weights.ts';

/** What many bone states are solved with: one catalogue, one table of weights. */
export interface SolverOf {
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings?: SolverSettings;
}

/** The best construct of one bone state and its cost, without ledger and alternatives. */
export interface LeastConstruct {
  readonly construct: Construct;
  readonly cost: number;
}

/** A solver that stands open for many bone states. */
export interface Solver {
  /** The construct of least cost; null where none keeps the limits. */
  readonly least: (state: BoneState) => LeastConstruct | null;
  /**
   * The same, null also where the least costs more than the ceiling (equal to it is within). Up to `enough` any construct
   * will do, and which one hangs on what was asked before; absent = only the least.
   */
  readonly leastWithin: (state: BoneState, ceiling: number, enough?: number) => LeastConstruct | null;
  /** Any construct that costs no more than the ceiling; null where there is none. Which one hangs on what was asked before. */
  readonly anyWithin: (state: BoneState, ceiling: number) => LeastConstruct | null;
}

/**
 * Opens the solver on one catalogue for many bone states, such as the draws of a forecast. Each answer is that of
 * `solve()` for the same state: the same construct, at the same cost to within rounding (1e-9).
 *
 * What is asked before never changes an answer, but where any construct will do. Frames and units as in the state and the construct: mm, deg.
 */
export function openSolver({ catalogue, weights, settings = DEFAULT_SETTINGS }: SolverOf): Solver {
  const prepared = prepare(catalogue);
  const prices = pricesOf(weights);
  const memory = new HoldMemory();
  const tensions: Tension[] = [];
  let before: Found[] = [];
  const within = (state: BoneState, ceiling: number, enough = Number.NEGATIVE_INFINITY): LeastConstruct | null => {
    const bounds = boundsOf(catalogue, settings, levelRank(leastConstraint(state).level));
    const tables = new Tables({ prepared, state, prices, bounds, memory });
    const search = new Search(tables, {}, { ceiling, tensions, enough });
    for (const found of before) if (!search.isDone && fitsSide(found, state)) tryAgain(found, search);
    const found = search.run();
    if (!found || found.cost > ceiling) return null;
    before = [found, ...before.filter((f) => !sameParts(f, found))].slice(0, MOST_BEFORE);
    return { construct: constructOf(found, tables), cost: found.cost };
  };
  return {
    least: (state) => within(state, Number.POSITIVE_INFINITY),
    leastWithin: within,
    anyWithin: (state, ceiling) => within(state, ceiling, ceiling),
  };
}

/** Constructs of earlier states that are tried first. */
const MOST_BEFORE = 4;

const fitsSide = ({ femur, tray }: Found, { side }: BoneState): boolean =>
  (femur.femur.side === 'both' || femur.femur.side === side) && (tray.side === 'both' || tray.side === side);

/** Whether two constructs are of the same parts and slope, wherever they settle. */
const sameParts = (a: Found, b: Found): boolean =>
  a.femur === b.femur &&
  a.tray === b.tray &&
  a.seat === b.seat &&
  a.level === b.level &&
  a.slopeDeg === b.slopeDeg &&
  samePair(a.distal.pair)(b.distal.pair) &&
  samePair(a.posterior.pair)(b.posterior.pair) &&
  a.posterior.flange.coupler === b.posterior.flange.coupler &&
  samePair(a.tibial.pair)(b.tibial.pair);
