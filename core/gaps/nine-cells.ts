import type { Catalogue } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct, Infeasible, SolvedConstruct, SolverSettings } from './construct.ts';
import { constructChanges } from './construct-changes.ts';
import { catalogueWith, LEVERS, type Lever } from './levers.ts';
import { openSolver } from './many/open-solver.ts';
import { DEFAULT_SETTINGS, solve } from './solve.ts';
import type { WeightTable } from './weights.ts';

/** How a gap is found against the plan. */
export const GAP_FOUND = ['tight', 'as planned', 'loose'] as const;
export type GapFound = (typeof GAP_FOUND)[number];

/** One lever alone in one cell: what it makes of the plan, and at which cost. */
export interface PulledLever extends Pick<Lever, 'id' | 'label'> {
  readonly construct: Construct;
  readonly cost: number;
  readonly changes: readonly string[];
}

export interface Cell {
  readonly flexion: GapFound;
  readonly extension: GapFound;
  /** The best construct with every part free; null = none, and `why`. */
  readonly best: SolvedConstruct | null;
  readonly why: Infeasible | null;
  /** What changes against the plan, in plain words with real parts; empty = the plan holds. */
  readonly changes: readonly string[];
  /**
   * Each lever pulled alone, cheapest first. Left out: those that leave no construct, change nothing, or come to the same
   * as a plainer one.
   */
  readonly levers: readonly PulledLever[];
}

export interface NineCells {
  /** How far from the plan tight and loose are, mm. */
  readonly byMm: number;
  readonly plan: SolvedConstruct;
  /** Rows: flexion tight, as planned, loose; in each the same of extension. */
  readonly rows: readonly (readonly Cell[])[];
}

export interface NineCellsAsked {
  readonly state: BoneState;
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings?: SolverSettings;
  /** Chosen tolerance, mm, > 0; default 4. */
  readonly byMm?: number;
}

/** Default distance of tight and loose from the plan, mm: beyond the windows, so that something must be done. */
export const CELL_MM = 4;

/** Costs closer than this are equal. */
const SAME_COST = 1e-9;

const WAY = { tight: -1, 'as planned': 0, loose: 1 } as const;

const wider = (p: PerCompartment<number>, byMm: number): PerCompartment<number> => ({
  medial: p.medial + byMm,
  lateral: p.lateral + byMm,
});

/** Cheapest first, the plainer among equals; without those that change nothing or what a plainer one changes too. */
function worthNaming(pulled: readonly PulledLever[]): readonly PulledLever[] {
  const same = (a: PulledLever, b: PulledLever) => a.changes.join() === b.changes.join();
  return pulled
    .filter((lever, i) => lever.changes.length > 0 && !pulled.slice(0, i).some((plainer) => same(plainer, lever)))
    .sort((a, b) => (Math.abs(a.cost - b.cost) <= SAME_COST ? 0 : a.cost - b.cost));
}

/** Makes the cells round a plan; the levers' solvers are opened once for all of them. */
function cellsAround(plan: SolvedConstruct, asked: Required<NineCellsAsked>): (f: GapFound, e: GapFound) => Cell {
  const { state, catalogue, weights, settings, byMm } = asked;
  const levers = LEVERS.map((lever) => ({
    lever,
    solver: openSolver({ catalogue: catalogueWith(lever.frees, plan.construct, catalogue), weights, settings }),
  }));
  const changed = (to: Construct) => constructChanges(plan.construct, to, catalogue);
  return (flexion, extension) => {
    const found: BoneState = {
      ...state,
      extensionLaxityMm: wider(state.extensionLaxityMm, WAY[extension] * byMm),
      flexionLaxityMm: wider(state.flexionLaxityMm, WAY[flexion] * byMm),
    };
    const whole = solve({ state: found, catalogue, weights, settings });
    const best = whole.kind === 'solved' ? whole.answer.best : null;
    const pulled = levers.flatMap(({ lever: { id, label }, solver }): PulledLever[] => {
      const least = solver.least(found);
      return least ? [{ id, label, ...least, changes: changed(least.construct) }] : [];
    });
    return {
      flexion,
      extension,
      best,
      why: whole.kind === 'infeasible' ? whole.why : null,
      changes: best ? changed(best.construct) : [],
      levers: worthNaming(pulled),
    };
  };
}

/**
 * The table of flexion against extension gap for this patient with real parts (GAP-30): both gaps found tight, as planned
 * or loose by a chosen number of mm, on both sides alike; in each cell the construct of least cost, what it changes of
 * the plan, and each lever pulled alone in the order of cost.
 *
 * Loose = the laxity on target (e in extension, f in flexion) is larger by so much, tight = smaller. Everything else of
 * the bone state stays. The middle cell is the plan.
 * @returns `cannot` where the plan itself finds no construct, or the tolerance is not a positive number.
 * Source of the levers: classical table, two textbooks (GAP-8).
 */
export function nineCells(asked: NineCellsAsked): Outcome<NineCells> {
  const { state, catalogue, weights, byMm = CELL_MM } = asked;
  if (!(byMm > 0 && Number.isFinite(byMm)))
    return cannot({
      code: 'cell-tolerance',
      message: `Tight and loose cannot lie ${byMm} mm from the plan.`,
      mend: 'Give a number of millimetres above 0.',
    });
  const settings = { ...(asked.settings ?? DEFAULT_SETTINGS), alternatives: 0 };
  const first = solve({ state, catalogue, weights, settings });
  if (first.kind === 'infeasible')
    return cannot({
      code: 'no-plan',
      message: 'No construct keeps the limits for the bone as planned, so there is no table around it.',
      ...(first.why.clashes[0]?.mend ? { mend: first.why.clashes[0].mend } : {}),
    });
  const plan = first.answer.best;
  const cell = cellsAround(plan, { ...asked, byMm, settings });
  return ok({
    byMm,
    plan,
    rows: GAP_FOUND.map((flexion) => GAP_FOUND.map((extension) => cell(flexion, extension))),
  });
}
