/** What a table holds under a key; made and kept where it holds nothing yet. */
export function remember<K, T>(table: Map<K, T>, key: K, make: () => T): T {
  const known = table.get(key);
  if (known !== undefined) return known;
  const made = make();
  table.set(key, made);
  return made;
}
