import type { Catalogue } from '../catalogue/catalogue.ts';
import { leastConstraint, levelRank } from '../constraint/least-constraint.ts';
import type { BoneState } from './bone-state.ts';
import type { SolverResult, SolverSettings } from './construct.ts';
import { byHandOf } from './pinned/by-hand.ts';
import { narrowedBy } from './pinned/narrow-catalogue.ts';
import type { Pinned } from './pinned/pinned.ts';
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
  /** What a person fixed by hand; absent = nothing. */
  readonly pinned?: Pinned;
}

/**
 * The construct of least cost for one bone state, exactly, with the next best that differ in kind; or the limits that
 * leave none (spec sections 3 to 5, docs/decisions/solver.md).
 *
 * Frames and signs as in the state and the construct: mm, deg; J proximal, q anterior, K proximal of the target.
 * Deterministic: equal costs are decided by the order of rule GAP-20. Valid for finite states; widths and thicknesses
 * as catalogues have them. Weights are those of the table given; their defaults are planning defaults, grade D.
 * What is fixed by hand holds like any other limit (GAP-40); what that costs is told by `solvePinned`.
 */
export function solve(question: SolverQuestion): SolverResult {
  const { prepared, state, prices, bounds } = asked(question);
  const tables = new Tables({ prepared, state, prices, bounds });
  const found = new Search(tables).run();
  if (!found) return { kind: 'infeasible', why: whyNone({ prepared, state, prices, bounds }) };
  const { settings = DEFAULT_SETTINGS } = question;
  const knee = { state, catalogue: prepared.catalogue };
  const best = judge(constructOf(found, tables), knee, { prices, differs: '' });
  return {
    kind: 'solved',
    answer: {
      best,
      alternatives: alternativesTo(found, tables, settings.alternatives),
      combinations: prepared.combinations(state.side),
    },
  };
}

/** The question as the search takes it: catalogue sorted and narrowed, prices looked up, limits as numbers. */
export function asked({ state, catalogue, weights, settings = DEFAULT_SETTINGS, pinned = {} }: SolverQuestion) {
  const byHand = byHandOf(pinned);
  const bounds = boundsOf(catalogue, settings, levelRank(leastConstraint(state).level));
  return {
    prepared: prepare(narrowedBy(catalogue, pinned)),
    state,
    prices: pricesOf(weights),
    bounds: byHand ? { ...bounds, byHand } : bounds,
  };
}
