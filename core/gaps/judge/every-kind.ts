import type { Catalogue } from '../../catalogue/catalogue.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { openSolver } from '../many/open-solver.ts';
import { DEFAULT_SETTINGS, type SolverQuestion, solve } from '../solve.ts';
import { trayCouplers } from './place.ts';
import { dice, randomSurprise, randomWeights, someOfEveryKind } from './random-cases.ts';
import { tryEverything } from './try-everything.ts';

/** What a run of cases met, so that a test can see that every kind was put to the test. */
export interface Tally {
  solved: number;
  none: number;
  arc: number;
  flexed: number;
  sleeves: number;
  distalFemur: number;
  proximalTibia: number;
  /** Solved knees in which a coupler under the tray could be judged, and those that take one. */
  coupling: number;
  coupled: number;
  tried: number;
  /** Cases on which solver and judge differ, with both costs. */
  readonly differ: string[];
}

/** What the solver says; where it finds a construct, the whole answer with its ledger must say the same. */
function costOf(question: SolverQuestion): number | null {
  const least = openSolver(question).least(question.state);
  if (!least) return null;
  const answer = solve({ ...question, settings: { ...DEFAULT_SETTINGS, alternatives: 0 } });
  const told = answer.kind === 'solved' ? answer.answer.best.cost : Number.NaN;
  return Math.abs(told - least.cost) < 1e-9 ? least.cost : Number.NaN;
}

/** Puts solver and judge to the same questions, one a seed, with every kind of part in play. */
export function compareOnSeeds(whole: Catalogue, seeds: readonly number[]): Tally {
  const tally: Tally = {
    solved: 0,
    none: 0,
    arc: 0,
    flexed: 0,
    sleeves: 0,
    distalFemur: 0,
    proximalTibia: 0,
    coupling: 0,
    coupled: 0,
    tried: 0,
    differ: [],
  };
  for (const seed of seeds) {
    const d = dice(seed);
    const catalogue = someOfEveryKind(whole, d);
    const state = randomSurprise(d, catalogue);
    const weights = randomWeights(d, DEFAULT_WEIGHTS);
    const { leastPolyethyleneMm } = DEFAULT_SETTINGS;
    const verdict = tryEverything({ state, catalogue, weights, leastPolyethyleneMm });
    const cost = costOf({ state, catalogue, weights });
    const same = cost === null || verdict === null ? cost === verdict : Math.abs(cost - verdict.cost) < 1e-9;
    if (!same) tally.differ.push(`${seed}: solver ${cost}, judge ${verdict?.cost ?? null}`);
    if (!verdict) {
      tally.none++;
      continue;
    }
    const isSegment = (ref: string) => catalogue.segments?.some((s) => s.ref === ref) ?? false;
    tally.solved++;
    tally.tried += verdict.tried;
    if (verdict.arc > 1e-9) tally.arc++;
    if (verdict.femoral.flexionDeg !== 0) tally.flexed++;
    if (verdict.femoral.metaphysis === 'sleeve' || verdict.tibial.metaphysis === 'sleeve') tally.sleeves++;
    if (isSegment(verdict.femur)) tally.distalFemur++;
    if (isSegment(verdict.tray)) tally.proximalTibia++;
    if (
      catalogue.trays.some(
        ({ size }) => trayCouplers({ state, catalogue, weights, leastPolyethyleneMm }, size).length > 0,
      )
    )
      tally.coupling++;
    if (verdict.trayCoupler !== null) tally.coupled++;
  }
  return tally;
}

/** What too few of so many cases met for the comparison to say anything of it; empty = every kind was put to the test. */
export function hardlyMet(tally: Tally, cases: number): readonly string[] {
  const moreThan = {
    solved: cases / 3,
    none: 20,
    arc: 40,
    flexed: 8,
    sleeves: 20,
    distalFemur: 20,
    proximalTibia: 10,
    coupling: 20,
    coupled: 4,
    tried: 50_000,
  };
  const kinds = Object.keys(moreThan) as (keyof typeof moreThan)[];
  return kinds.filter((kind) => tally[kind] <= moreThan[kind]).map((kind) => `${kind}: ${tally[kind]}`);
}
