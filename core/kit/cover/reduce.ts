import {
  byList,
  common,
  countOf,
  holds,
  indicesOf,
  isEmpty,
  maskOf,
  maskOfAll,
  NO_SETS,
  type SetMask,
  union,
  within,
  without,
} from '../set-mask.ts';
import { type Cover, type CoverGroup, packCover } from './cover.ts';

/** What is asked of a choice of sets, before it is made small. */
export interface CoverQuestion {
  readonly costs: readonly number[];
  readonly groups: readonly CoverGroup[];
  readonly must: SetMask;
  readonly mustNot: SetMask;
}

/** The same question with nothing left in it that needs no thought. */
export interface Reduced {
  readonly cover: Cover;
  /** Place in the question of each set of `cover`. */
  readonly placeOf: readonly number[];
  /** Sets that are in every answer, and what they cost. */
  readonly fixed: SetMask;
  readonly fixedCost: number;
  /** Weight that is covered whatever else is brought, and weight that nothing covers. */
  readonly always: number;
  readonly never: number;
}

/** Options of which none holds another, in a stated order: fewest sets first, then by the list. */
export function leastOptions(options: readonly SetMask[]): readonly SetMask[] {
  const sorted = [...options].sort((a, b) => countOf(a) - countOf(b) || byList(a, b));
  const kept: SetMask[] = [];
  for (const option of sorted) if (!kept.some((k) => within(k, option))) kept.push(option);
  return kept;
}

const keyOf = (options: readonly SetMask[]): string => options.map((o) => `${o[0]},${o[1]}`).join(' ');

/** Groups with equal options become one. */
function merged(groups: readonly CoverGroup[]): CoverGroup[] {
  const byKey = new Map<string, { weight: number; options: readonly SetMask[] }>();
  for (const { weight, options } of groups) {
    const key = keyOf(options);
    const known = byKey.get(key);
    if (known) known.weight += weight;
    else byKey.set(key, { weight, options });
  }
  return [...byKey.values()];
}

/**
 * Whether the room with j in place of i, or with j alone where both were, always covers what it covered with i:
 * every option that holds i has one beside it that makes do with j.
 */
function standsInFor(j: number, i: number, groups: readonly CoverGroup[]): boolean {
  const [out, into] = [maskOf(i), maskOf(j)];
  return groups.every(({ options }) =>
    options.every((o) => {
      if (isEmpty(common(o, out))) return true;
      const swapped = union(without(o, out), into);
      return options.some((p) => within(p, swapped));
    }),
  );
}

/** Sets that no cheapest room needs: in no option, or another one stands in for it at no greater cost. */
function needless(costs: readonly number[], groups: readonly CoverGroup[]): SetMask {
  let left = groups;
  let out = NO_SETS;
  let used = maskOfAll(groups.flatMap((g) => g.options.flatMap(indicesOf)));
  for (let i = costs.length - 1; i >= 0; i--) {
    if (!holds(used, i)) {
      out = union(out, maskOf(i));
      continue;
    }
    const other = costs.findIndex(
      (cost, j) => j !== i && holds(used, j) && cost <= (costs[i] as number) && standsInFor(j, i, left),
    );
    if (other < 0) continue;
    out = union(out, maskOf(i));
    used = without(used, maskOf(i));
    left = left.map(({ weight, options }) => ({ weight, options: options.filter((o) => !holds(o, i)) }));
  }
  return out;
}

/**
 * Makes the question small without changing any answer: sets that must or must not come are settled, options that
 * hold another one go, equal groups are merged, and sets for which another one stands in are left out.
 */
export function reduceCover({ costs, groups, must, mustNot }: CoverQuestion): Reduced {
  const barred = without(mustNot, must);
  let always = 0;
  let never = 0;
  const open: CoverGroup[] = [];
  for (const { weight, options } of groups) {
    const possible = leastOptions(options.filter((o) => isEmpty(common(o, barred))).map((o) => without(o, must)));
    if (possible.length === 0) never += weight;
    else if (possible.some(isEmpty)) always += weight;
    else open.push({ weight, options: possible });
  }
  const first = merged(open);
  const out = needless(costs, first);
  const kept = merged(
    first.map(({ weight, options }) => ({ weight, options: options.filter((o) => isEmpty(common(o, out))) })),
  );
  const placeOf = costs.map((_, i) => i).filter((i) => !holds(out, i));
  const newPlace = new Map(placeOf.map((place, i) => [place, i]));
  const moved = (mask: SetMask): SetMask => maskOfAll(indicesOf(mask).map((i) => newPlace.get(i) as number));
  return {
    cover: packCover(
      placeOf.map((i) => costs[i] as number),
      kept.map(({ weight, options }) => ({ weight, options: options.map(moved) })),
    ),
    placeOf,
    fixed: must,
    fixedCost: indicesOf(must).reduce((sum, i) => sum + (costs[i] as number), 0),
    always,
    never,
  };
}
