import type { Reason } from '../measure/outcome.ts';
import type { SetList, StockItem } from './set-list.ts';

/** Pieces by reference. */
export type Pieces = ReadonlyMap<string, number>;

/** What really lies in each set, and loose on the shelf. */
export interface Contents {
  /** In the order of the list. */
  readonly ofSet: readonly Pieces[];
  /** In the room whatever is brought. */
  readonly loose: Pieces;
  readonly notes: readonly Reason[];
}

export interface ContentsAsked {
  readonly setList: SetList;
  /** Null = not told: what the list says is taken to be there. */
  readonly stock: readonly StockItem[] | null;
  /** Day on which the parts are used, YYYY-MM-DD; null = not set: then nothing is judged as expired. */
  readonly usedOn: string | null;
}

const count = (pieces: Map<string, number>, ref: string, by: number) => pieces.set(ref, (pieces.get(ref) ?? 0) + by);

/** A lot may be used on its last day, not after. */
const isExpired = (item: StockItem, usedOn: string | null): boolean => usedOn !== null && item.expires < usedOn;

function expiredNote(items: readonly StockItem[], usedOn: string): Reason[] {
  if (items.length === 0) return [];
  const shown = items
    .slice(0, 5)
    .map((i) => `${i.ref} lot ${i.lot}${i.set ? ` in ${i.set}` : ''} (${i.expires})`)
    .join(', ');
  const more = items.length > 5 ? ` and ${items.length - 5} more` : '';
  return [
    {
      code: 'KIT-7',
      message: `Expired by ${usedOn} and counted as not there: ${shown}${more}.`,
      mend: 'Have the lots replaced, or plan without them.',
    },
  ];
}

/** Parts that the list puts into a set and the stock does not find there. */
function shortNote(list: SetList, ofSet: readonly Pieces[]): Reason[] {
  return list.sets.flatMap((set, i) => {
    const short = set.parts.filter(({ ref, count: wanted }) => (ofSet[i]?.get(ref) ?? 0) < wanted);
    if (short.length === 0) return [];
    const shown = short.slice(0, 5).map(({ ref, count: wanted }) => `${ref} ${ofSet[i]?.get(ref) ?? 0} of ${wanted}`);
    const more = short.length > 5 ? ` and ${short.length - 5} more` : '';
    return [
      {
        code: 'KIT-7',
        message: `${set.name} is not whole in the stock: ${shown.join(', ')}${more}.`,
        field: set.ref,
        mend: 'Have the set filled up, or bring it as it is knowing this.',
      },
    ];
  });
}

/**
 * What each set really holds (KIT-7). A set that the stock names holds the lots that the stock finds in it and that are not
 * expired on the day of use; a set that it does not name is taken to be whole, as listed. Lots without a set lie
 * loose on the shelf and are always in the room.
 */
export function contentsOf({ setList, stock, usedOn }: ContentsAsked): Contents {
  const listed = (set: SetList['sets'][number]) => new Map(set.parts.map(({ ref, count: n }) => [ref, n]));
  if (!stock) return { ofSet: setList.sets.map(listed), loose: new Map(), notes: [] };
  const named = new Map(setList.sets.map((set) => [set.ref, new Map<string, number>()]));
  const told = new Set<string>();
  const loose = new Map<string, number>();
  const expired: StockItem[] = [];
  const stray: StockItem[] = [];
  for (const item of stock) {
    const into = item.set === undefined ? loose : named.get(item.set);
    if (!into) {
      stray.push(item);
      continue;
    }
    if (item.set !== undefined) told.add(item.set);
    if (isExpired(item, usedOn)) expired.push(item);
    else count(into, item.ref, item.count);
  }
  const ofSet = setList.sets.map((set) => (told.has(set.ref) ? (named.get(set.ref) ?? new Map()) : listed(set)));
  const unknown = [...new Set(stray.map((item) => item.set))].join(', ');
  return {
    ofSet,
    loose,
    notes: [
      ...(usedOn === null ? [] : expiredNote(expired, usedOn)),
      ...shortNote(setList, ofSet),
      ...(stray.length === 0
        ? []
        : [
            {
              code: 'KIT-7',
              message: `The stock names sets that the list does not hold: ${unknown}. Their lots are not counted.`,
              field: 'set',
              mend: 'Correct the reference of the set in the stock, or add the set to the list.',
            },
          ]),
    ],
  };
}
