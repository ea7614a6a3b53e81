/** Replaces the item at `index` (-1 = it is new), or inserts it at `at` (absent or out of range: last). */
export function put<T>(
  list: readonly T[],
  item: T,
  place: { readonly index: number; readonly at: number | undefined },
): T[] {
  const next = [...list];
  if (place.index >= 0) next[place.index] = item;
  else next.splice(placeOf(place.at, list.length), 0, item);
  return next;
}

const placeOf = (at: number | undefined, length: number): number =>
  at !== undefined && Number.isInteger(at) && at >= 0 && at <= length ? at : length;
