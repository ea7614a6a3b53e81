import { indicesOf, type SetMask } from '../set-mask.ts';

/** Knees of one weight with the combinations of sets that cover them. */
export interface CoverGroup {
  readonly weight: number;
  readonly options: readonly SetMask[];
}

/** A cover problem packed for speed: sets 0 to `sets` - 1, options group after group. */
export interface Cover {
  readonly sets: number;
  readonly costs: Float64Array;
  /** Weight of each group. */
  readonly weights: Float64Array;
  /** Options of group g: from `first[g]` up to, not with, `first[g + 1]`. */
  readonly first: Int32Array;
  readonly groupOf: Int32Array;
  readonly low: Int32Array;
  readonly high: Int32Array;
  /** Number of sets in each option. */
  readonly size: Int32Array;
  /** Options that hold each set. */
  readonly holding: readonly Int32Array[];
  /** Weight of all groups. */
  readonly total: number;
}

/** Packs groups and costs; options are lists of places in `costs`. */
export function packCover(costs: readonly number[], groups: readonly CoverGroup[]): Cover {
  const options = groups.flatMap((g) => g.options);
  const first = new Int32Array(groups.length + 1);
  groups.forEach((g, i) => {
    first[i + 1] = (first[i] as number) + g.options.length;
  });
  const holding: number[][] = costs.map(() => []);
  options.forEach((mask, o) => {
    for (const set of indicesOf(mask)) holding[set]?.push(o);
  });
  return {
    sets: costs.length,
    costs: Float64Array.from(costs),
    weights: Float64Array.from(groups, (g) => g.weight),
    first,
    groupOf: Int32Array.from(groups.flatMap((g, i) => g.options.map(() => i))),
    low: Int32Array.from(options, (m) => m[0]),
    high: Int32Array.from(options, (m) => m[1]),
    size: Int32Array.from(options, (m) => indicesOf(m).length),
    holding: holding.map((list) => Int32Array.from(list)),
    total: groups.reduce((sum, g) => sum + g.weight, 0),
  };
}
