import { leastOptions } from './cover/reduce.ts';
import type { Contents, Pieces } from './set-contents.ts';
import { common, indicesOf, isEmpty, maskOf, maskOfAll, NO_SETS, type SetMask, union } from './set-mask.ts';

/** Combinations of sets that hold so many pieces of a part. */
interface Ways {
  readonly id: number;
  readonly masks: readonly SetMask[];
}

/** Sets that hold a part, with how many; made once for a list. */
export class Holding {
  private readonly setsOf = new Map<string, { readonly set: number; readonly count: number }[]>();
  private readonly contents: Contents;
  private readonly known = new Map<string, readonly SetMask[]>();
  private readonly waysOf = new Map<string, Ways>();
  private readonly waysByMasks = new Map<string, Ways>();

  constructor(contents: Contents) {
    this.contents = contents;
    contents.ofSet.forEach((pieces, set) => {
      for (const [ref, count] of pieces) {
        if (count <= 0) continue;
        const list = this.setsOf.get(ref) ?? [];
        list.push({ set, count });
        this.setsOf.set(ref, list);
      }
    });
  }

  /** The sets that hold a part, or the shelf, as a text; empty = it lies nowhere. */
  readonly whereIs = (ref: string): string =>
    [
      ...((this.contents.loose.get(ref) ?? 0) > 0 ? ['shelf'] : []),
      ...(this.setsOf.get(ref) ?? []).map(({ set, count }) => `${set}*${count}`),
    ].join(' ');

  /** Everything that lies in the room when these sets are brought. */
  piecesIn(room: SetMask): Pieces {
    const pieces = new Map(this.contents.loose);
    for (const set of indicesOf(room))
      for (const [ref, count] of this.contents.ofSet[set] ?? []) pieces.set(ref, (pieces.get(ref) ?? 0) + count);
    return pieces;
  }

  /** Every least combination of sets that together hold the pieces; none where all sets together do not. */
  combinationsFor(needed: Pieces): readonly SetMask[] {
    const asked = new Map<number, Ways>();
    for (const [ref, count] of needed) {
      const ways = this.waysFor(ref, count);
      asked.set(ways.id, ways);
    }
    const key = [...asked.keys()].sort((a, b) => a - b).join(' ');
    const known = this.known.get(key);
    if (known) return known;
    let options: readonly SetMask[] = [NO_SETS];
    for (const { masks } of asked.values())
      options = leastOptions(options.flatMap((option) => masks.map((mask) => union(option, mask))));
    this.known.set(key, options);
    return options;
  }

  /** Parts that lie in the same sets share their ways, and so their number. */
  private waysFor(ref: string, count: number): Ways {
    const asked = `${ref}*${count}`;
    const known = this.waysOf.get(asked);
    if (known) return known;
    const masks = this.waysToHold(ref, count);
    const key = masks.map((m) => m.join()).join(' ');
    const ways = this.waysByMasks.get(key) ?? { id: this.waysByMasks.size, masks };
    this.waysByMasks.set(key, ways);
    this.waysOf.set(asked, ways);
    return ways;
  }

  /** Least combinations of sets that hold so many pieces of one part. */
  private waysToHold(ref: string, count: number): readonly SetMask[] {
    const left = count - (this.contents.loose.get(ref) ?? 0);
    if (left <= 0) return [NO_SETS];
    let ways: { mask: SetMask; held: number }[] = [{ mask: NO_SETS, held: 0 }];
    const found: SetMask[] = [];
    // Few pieces are ever asked of one part, so few sets are ever joined for it.
    for (let joined = 0; joined < left && ways.length > 0; joined++) {
      const next: typeof ways = [];
      for (const way of ways)
        for (const { set, count: more } of this.setsOf.get(ref) ?? []) {
          const last = indicesOf(way.mask).at(-1) ?? -1;
          if (set <= last) continue;
          const mask = union(way.mask, maskOf(set));
          if (way.held + more >= left) found.push(mask);
          else next.push({ mask, held: way.held + more });
        }
      ways = next;
    }
    return leastOptions(found);
  }
}

/**
 * Least groups of sets of which every option loses one (minimal transversals), one option added at a time
 * (Berge 1989, Hypergraphs): the rooms without such a group are the fullest that none of the options opens.
 */
export function cutsWith(cuts: readonly SetMask[], option: SetMask): readonly SetMask[] {
  const hit = cuts.filter((cut) => !isEmpty(common(cut, option)));
  const rest = cuts.filter((cut) => isEmpty(common(cut, option)));
  const grown = rest.flatMap((cut) => indicesOf(option).map((set) => union(cut, maskOf(set))));
  return leastOptions([...hit, ...grown]);
}

/** All sets of a list of so many. */
export const allSets = (count: number): SetMask => maskOfAll(Array.from({ length: count }, (_, i) => i));
