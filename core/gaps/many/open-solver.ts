import type { Catalogue } from '../../catalogue/catalogue.ts';
import { leastConstraint, levelRank } from '../../constraint/least-constraint.ts';
import type { BoneState } from '../bone-state.ts';
import type { Construct, SolverSettings } from '../construct.ts';
import { pricesOf } from '../price.ts';
import { DEFAULT_SETTINGS } from '../solve.ts';
import { boundsOf } from '../solver/bounds.ts';
import { HoldMemory } from '../solver/holds.ts';
import { prepare } from '../solver/prepare.ts';
import { Search } from '../solver/search.ts';
import { Tables } from '../solver/tables.ts';
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
  /** The same, null also where the least costs more than the ceiling (equal to it is within). */
  readonly leastWithin: (state: BoneState, ceiling: number) => LeastConstruct | null;
}

/**
 * Opens the solver on one catalogue for many bone states, such as the draws of a forecast. Each answer is that of
 * `solve()` for the same state: the same construct, at the same cost to within rounding (1e-9).
 *
 * What is asked before never changes an answer. Frames and units as in the state and the construct: mm, deg.
 */
export function openSolver({ catalogue, weights, settings = DEFAULT_SETTINGS }: SolverOf): Solver {
  const prepared = prepare(catalogue);
  const prices = pricesOf(weights);
  const memory = new HoldMemory();
  const leastWithin = (state: BoneState, ceiling: number): LeastConstruct | null => {
    const bounds = boundsOf(catalogue, settings, levelRank(leastConstraint(state).level));
    const tables = new Tables({ prepared, state, prices, bounds, memory });
    const found = new Search(tables, {}, { ceiling }).run();
    return found && found.cost <= ceiling ? { construct: constructOf(found, tables), cost: found.cost } : null;
  };
  return { least: (state) => leastWithin(state, Number.POSITIVE_INFINITY), leastWithin };
}
