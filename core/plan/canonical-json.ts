/**
 * JSON with the keys of every object in alphabetical order and no spaces: the same value gives the same bytes, however it was
 * put together. What is hashed, stored and compared. `undefined` fields are left out; negative zero is zero.
 * Numbers must be finite: anything else is a bug, since no NaN leaves the core.
 */
export function canonicalJson(value: unknown): string {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error('canonicalJson: a number is not finite');
    return JSON.stringify(value === 0 ? 0 : value);
  }
  if (Array.isArray(value)) return `[${value.map((v) => (v === undefined ? 'null' : canonicalJson(v))).join(',')}]`;
  if (typeof value === 'object' && value !== null) {
    const fields = value as Readonly<Record<string, unknown>>;
    const names = Object.keys(fields)
      .filter((name) => fields[name] !== undefined)
      .sort();
    return `{${names.map((name) => `${JSON.stringify(name)}:${canonicalJson(fields[name])}`).join(',')}}`;
  }
  const text = JSON.stringify(value);
  if (text === undefined) throw new Error(`canonicalJson: a ${typeof value} is no data`);
  return text;
}
