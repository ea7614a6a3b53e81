import type { Catalogue } from '../catalogue/catalogue.ts';
import { leastConstraint, levelRank } from '../constraint/least-constraint.ts';
import type { BoneState } from './bone-state.ts';
import type { SolverResult, SolverSettings } from './construct.ts';
import { pricesOf } from './price.ts';
import { alternativesTo } from './solver/alternatives.ts';
import { boundsOf } from './solver/bounds.ts';
import { prepare } from './solver/prepare.ts';
import { Search } from './solver/search.ts';
import { Tables } from './solver/tables.ts';
import { constructOf, judge } from './solver/to-construct.ts';
import { whyNone } from './solver/why-none.ts';
import type { WeightTable } from './weights.ts';

/** Least polyethylene 6 mm: Lingaraj 2011 (Knee 18:165), a recommendation. */
export const DEFAULT_SETTINGS: SolverSettings = { leastPolyethyleneMm: 6, alternatives: 4 };

export interface SolverQuestion {
  readonly state: BoneState;
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings?: SolverSettings;
}

/**
 * The construct of least cost for one bone state, exactly, with the next best that differ in kind; or the limits that
 * leave none (spec sections 3 to 5, docs/decisions/solver.md).
 *
 * Frames and signs as in the state and the construct: mm, deg; J proximal, q anterior, K proximal of the target.
 * Deterministic: equal costs are decided by the order of rule GAP-20. Valid for finite states; widths and thicknesses
 * as catalogues have them. Weights are those of the table given; their defaults are planning defaults, grade D.
 */
export function solve({ state, catalogue, weights, settings = DEFAULT_SETTINGS }: SolverQuestion): SolverResult {
  const prepared = prepare(catalogue);
  const prices = pricesOf(weights);
  const bounds = boundsOf(catalogue, settings, levelRank(leastConstraint(state).level));
  const tables = new Tables({ prepared, state, prices, bounds });
  const found = new Search(tables).run();
  if (!found) return { kind: 'infeasible', why: whyNone({ prepared, state, prices, bounds }) };
  const best = judge(constructOf(found, tables), { state, catalogue }, { prices, differs: '' });
  return {
    kind: 'solved',
    answer: {
      best,
      alternatives: alternativesTo(found, tables, settings.alternatives),
      combinations: prepared.combinations[state.side],
    },
  };
}
