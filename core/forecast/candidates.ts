import type { Construct } from '../gaps/construct.ts';
import { retold } from '../measure/steps.ts';
import { andNot, type Bits, bitsOf, count } from './bits.ts';
import { AS_GOOD_WITHIN, excessOf, HOLDS_WITHIN, type SearchWith } from './excess.ts';
import type { ForecastProgress, KneeForecast } from './forecast.ts';
import { kindNamer } from './kind.ts';
import { typicalConstruct } from './typical-construct.ts';

/** The knees in which a construct holds, and those in which it is as good as the best (FOR-10, FOR-12). */
export interface Held {
  readonly holds: Bits;
  readonly asGood: Bits;
}

/** A construct that may be what is done. */
export interface Candidate extends Held {
  readonly construct: Construct;
}

/** What was tried on the sample. */
type Tried = Pick<Candidate, 'construct' | 'holds'>;

/** How far the search for candidates goes (FOR-12; choice of this project): kinds tried, knees they are tried on, kinds kept. */
export const CANDIDATES = { kinds: 20, knees: 150, kept: 4 } as const;

/** Knees judged between two breaths. */
const CHUNK = 20;

/** Up to where it is told how a construct does: whether it holds, or also whether it is as good as the best. */
type Closely = typeof HOLDS_WITHIN | typeof AS_GOOD_WITHIN;

/** How much dearer than the best of each knee a construct is; null where it does not hold. */
type Above = readonly (number | null)[];

/** Judges a construct on knees (FOR-10). Yields now and then. */
function* aboveBest(
  construct: Construct,
  knees: readonly KneeForecast[],
  { search, closely }: { readonly search: SearchWith; readonly closely: Closely },
): Generator<number, Above, unknown> {
  const excess = excessOf(construct, search, closely);
  const above: (number | null)[] = [];
  for (const { knee, least } of knees) {
    above.push(least && excess(knee.state, least.cost));
    if (above.length % CHUNK === 0) yield above.length;
  }
  return above;
}

/** The knees in which it is dearer by no more than that. */
const within = (above: Above, most: Closely): Bits =>
  bitsOf(above.length, (i) => (above[i] ?? Number.POSITIVE_INFINITY) <= most);

/** The most frequent kinds of construct, each by its most frequent parts; the first choice is not among them. */
function frequentKinds(perKnee: readonly KneeForecast[], first: Construct | null, search: SearchWith): Construct[] {
  const kind = kindNamer(first, search.catalogue);
  const byKind = new Map<string, Construct[]>();
  for (const { least } of perKnee) {
    if (!least) continue;
    const name = kind(least.construct);
    const alike = byKind.get(name);
    if (alike) alike.push(least.construct);
    else byKind.set(name, [least.construct]);
  }
  if (first) byKind.delete(kind(first));
  return [...byKind]
    .sort(([a, m], [b, n]) => n.length - m.length || (a < b ? -1 : 1))
    .slice(0, CANDIDATES.kinds)
    .map(([, alike]) => typicalConstruct(alike));
}

/**
 * What may be done: the first choice, then the few kinds of construct that between them hold in the most knees, each the
 * one that adds most (greedy cover, tried on an even sample of the knees; ties: the more frequent kind). Every
 * candidate is then judged on all knees.
 */
export function* candidatesFor(
  perKnee: readonly KneeForecast[],
  first: Construct | null,
  search: SearchWith,
): Generator<ForecastProgress, readonly Candidate[], unknown> {
  const step = Math.max(1, Math.floor(perKnee.length / CANDIDATES.knees));
  const sample = perKnee.filter((_, i) => i % step === 0);
  const pool = frequentKinds(perKnee, first, search);
  const kept: Construct[] = first ? [first] : [];
  const of = (pool.length + kept.length) * sample.length + (CANDIDATES.kept + kept.length) * perKnee.length;
  let done = 0;
  function* judged(
    construct: Construct,
    knees: readonly KneeForecast[],
    closely: Closely,
  ): Generator<ForecastProgress, Above, unknown> {
    const above = yield* retold(
      aboveBest(construct, knees, { search, closely }),
      (now): ForecastProgress => ({ part: 'bail-outs', done: done + now, of }),
    );
    done += knees.length;
    return above;
  }
  const holdsInSample = function* (construct: Construct) {
    return within(yield* judged(construct, sample, HOLDS_WITHIN), HOLDS_WITHIN);
  };
  let left = bitsOf(sample.length, () => true);
  if (first) left = andNot(left, yield* holdsInSample(first));
  const tried: Tried[] = [];
  for (const construct of pool) tried.push({ construct, holds: yield* holdsInSample(construct) });
  while (kept.length < CANDIDATES.kept + (first ? 1 : 0)) {
    const best = mostAdding(tried, left);
    if (!best) break;
    kept.push(best.construct);
    left = andNot(left, best.holds);
  }
  const candidates: Candidate[] = [];
  for (const construct of kept) {
    const above = yield* judged(construct, perKnee, AS_GOOD_WITHIN);
    candidates.push({ construct, holds: within(above, HOLDS_WITHIN), asGood: within(above, AS_GOOD_WITHIN) });
  }
  return candidates;
}

/** The candidate that holds in the most knees that are left; null where none holds in any. */
function mostAdding(tried: readonly Tried[], left: Bits): Tried | null {
  let best: { candidate: Tried; adds: number } | null = null;
  for (const candidate of tried) {
    const adds = count(candidate.holds.map((word, i) => word & (left[i] as number)));
    if (adds > 0 && (!best || adds > best.adds)) best = { candidate, adds };
  }
  return best?.candidate ?? null;
}
