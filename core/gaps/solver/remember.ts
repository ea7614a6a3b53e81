/** What a table holds under a key; made and kept where it holds nothing yet. */
export function remember<K, T>(table: Map<K, T>, key: K, make: () => T): T {
  const known = table.get(key);
  if (known !== undefined) return known;
  const made = make();
  table.set(key, made);
  return made;
}

/** The same of a table whose keys are small whole numbers. */
export function rememberAt<T>(table: T[], index: number, make: () => T): T {
  const known = table[index];
  if (known !== undefined) return known;
  const made = make();
  table[index] = made;
  return made;
}

/** Numbers keys in the order in which they come, equal keys alike. */
export function numbering(): (key: string) => number {
  const known = new Map<string, number>();
  return (key) => remember(known, key, () => known.size);
}
