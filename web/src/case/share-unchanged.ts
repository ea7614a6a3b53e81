/**
 * `next` with every part that equals the same part of `before` taken from `before` itself, so that what did not
 * change can be told by identity and need not be drawn again. For plain data: objects, lists, texts and numbers.
 */
export function shareUnchanged<T>(before: T, next: T): T {
  return shared(before, next) as T;
}

function shared(before: unknown, next: unknown): unknown {
  if (Object.is(before, next) || !isComposite(before) || !isComposite(next)) return next;
  if (Array.isArray(before) !== Array.isArray(next)) return next;
  return Array.isArray(next) ? sharedList(before as unknown as readonly unknown[], next) : sharedObject(before, next);
}

const isComposite = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

function sharedList(before: readonly unknown[], next: readonly unknown[]): readonly unknown[] {
  const list = next.map((item, i) => shared(before[i], item));
  return list.length === before.length && list.every((item, i) => Object.is(item, before[i])) ? before : list;
}

function sharedObject(before: Readonly<Record<string, unknown>>, next: Readonly<Record<string, unknown>>): object {
  const keys = Object.keys(next);
  let same = keys.length === Object.keys(before).length;
  const entries: [string, unknown][] = [];
  for (const key of keys) {
    const value = Object.hasOwn(before, key) ? shared(before[key], next[key]) : next[key];
    same &&= Object.hasOwn(before, key) && Object.is(value, before[key]);
    entries.push([key, value]);
  }
  // By entries, so that a key called __proto__ is a key like any other.
  return same ? before : Object.fromEntries(entries);
}
