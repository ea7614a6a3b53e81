/** The value that is named most often; equal counts = the first in alphabetical order. Null for none. */
export function mostFrequent(names: readonly string[]): { readonly name: string; readonly count: number } | null {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  let best: { name: string; count: number } | null = null;
  for (const [name, count] of counts)
    if (!best || count > best.count || (count === best.count && name < best.name)) best = { name, count };
  return best;
}
