import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct, SolverSettings } from '../gaps/construct.ts';
import { type LeastConstruct, openSolver } from '../gaps/many/open-solver.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { finish } from '../measure/steps.ts';
import { bailOuts } from './bail-outs.ts';
import { count } from './bits.ts';
import { type Candidate, candidatesFor } from './candidates.ts';
import { choiceNames, choiceShares } from './choices.ts';
import type { DrawnKnee } from './drawn-knee.ts';
import { forecastEvents } from './events.ts';
import type { SearchWith } from './excess.ts';
import type { Forecast } from './forecast-types.ts';
import { kindNamer } from './kind.ts';
import { forecastLengths } from './lengths.ts';
import { mostFrequent } from './most-frequent.ts';
import { typicalConstruct } from './typical-construct.ts';

/** What a forecast is made of. */
export interface ForecastQuestion {
  readonly knees: readonly DrawnKnee[];
  /** The bone that the plan was made for: its best construct is the first choice. */
  readonly expected: BoneState;
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings?: SolverSettings;
  /** Seed that the knees were drawn from, for the record. */
  readonly seed: number;
  /** What was not stated (`notStatedOf`), carried into the answer. */
  readonly notStated?: Forecast['notStated'];
  /** Knees solved between two reports of progress; absent = 20. */
  readonly chunk?: number;
}

export interface ForecastProgress {
  /** First every knee is solved, then bail-outs are tried on them. */
  readonly part: 'knees' | 'bail-outs';
  readonly done: number;
  readonly of: number;
}

/** One drawn knee and the best construct for it; null = none fits, or an infection wants a spacer. */
export interface KneeForecast {
  readonly knee: DrawnKnee;
  readonly least: LeastConstruct | null;
}

export interface ForecastAnswer {
  readonly forecast: Forecast;
  /** The construct of least cost for the expected bone; null = none fits. */
  readonly first: Construct | null;
  readonly perKnee: readonly KneeForecast[];
}

const CHUNK = 20;

/**
 * What the plan may become (FOR-9, FOR-10): the best construct of every drawn knee, in steps that report progress, so
 * that a page can show it and stop. Shares are of all draws, 0 to 1; an infected knee gets a spacer and no construct.
 *
 * Deterministic: the same knees, catalogue and weights give the same answer, byte for byte.
 * Example: knees that are all the expected one give `firstHolds` 1.
 */
export function* forecasting(question: ForecastQuestion): Generator<ForecastProgress, ForecastAnswer, unknown> {
  const { knees, expected, catalogue, weights, settings, chunk = CHUNK } = question;
  const search: SearchWith = { catalogue, weights, ...(settings ? { settings } : {}) };
  const solver = openSolver(search);
  const first = solver.least(expected)?.construct ?? null;
  const perKnee: KneeForecast[] = [];
  for (const knee of knees) {
    perKnee.push({ knee, least: knee.infection ? null : solver.least(knee.state) });
    if (perKnee.length % chunk === 0) yield { part: 'knees', done: perKnee.length, of: knees.length };
  }
  const candidates = yield* candidatesFor(perKnee, first, search);
  return { forecast: summary(question, { first, perKnee, candidates }), first, perKnee };
}

/** The same in one go. */
export function forecastOf(question: ForecastQuestion): ForecastAnswer {
  return finish(forecasting(question));
}

type Answered = Pick<ForecastAnswer, 'first' | 'perKnee'> & { readonly candidates: readonly Candidate[] };

function summary(question: ForecastQuestion, { first, perKnee, candidates }: Answered): Forecast {
  const { knees, catalogue, seed, notStated = [] } = question;
  const constructs = perKnee.map(({ least }) => least?.construct ?? null);
  const share = (n: number): number => (knees.length === 0 ? 0 : n / knees.length);
  const kind = kindNamer(first, catalogue);
  const kinds = constructs.map((c) => c && kind(c));
  const infection = knees.filter((k) => k.infection).length;
  const shares = candidates.map(({ construct, holds }) => ({ construct, share: share(count(holds)) }));
  return {
    seed,
    draws: knees.length,
    most: mostOf(constructs, kinds),
    firstHolds: first ? (shares[0]?.share ?? 0) : 0,
    firstBest: first ? share(kinds.filter((k) => k === kind(first)).length) : 0,
    widest: shares.reduce<Forecast['widest']>((best, s) => (best && best.share >= s.share ? best : s), null),
    noConstruct: share(constructs.filter((c) => c === null).length - infection),
    fracture: share(knees.filter((k) => k.fracture).length),
    infection: share(infection),
    choices: choiceShares(constructs, choiceNames(catalogue)),
    events: forecastEvents(knees),
    lengths: forecastLengths(
      knees.map((k) => k.state),
      constructs,
    ),
    bailOuts: bailOuts({ perKnee, first, candidates, catalogue }),
    notStated,
  };
}

/** The most frequent kind, shown by its most frequent parts. */
function mostOf(constructs: readonly (Construct | null)[], kinds: readonly (string | null)[]): Forecast['most'] {
  const most = mostFrequent(kinds.filter((k) => k !== null));
  if (!most) return null;
  const alike = constructs.filter((c, i): c is Construct => c !== null && kinds[i] === most.name);
  return { construct: typicalConstruct(alike), share: most.count / constructs.length };
}
