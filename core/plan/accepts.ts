/** Whether a value that comes from outside has the form of one entry of a list: the smallest pieces such forms are made of. */
export type Accepts = (value: unknown) => boolean;

export const isText =
  (most: number): Accepts =>
  (v) =>
    typeof v === 'string' && v.length <= most;

export const isNumber =
  (least: number, most: number): Accepts =>
  (v) =>
    typeof v === 'number' && Number.isFinite(v) && v >= least && v <= most;

export const isWord =
  (words: readonly (string | number)[]): Accepts =>
  (v) =>
    (typeof v === 'string' || typeof v === 'number') && words.includes(v);

export const isTrueOrFalse: Accepts = (v) => typeof v === 'boolean';

export const isEither =
  (...kinds: readonly Accepts[]): Accepts =>
  (v) =>
    kinds.some((accepts) => accepts(v));

/** Longest list that any page makes; a bound against nonsense. */
const LONGEST = 500;

export const isListOf =
  (entry: Accepts, most = LONGEST): Accepts =>
  (v) =>
    Array.isArray(v) && v.length <= most && v.every(entry);

/** An object with every field of `all`, any of `some`, and no other. */
export function isRecordOf(
  all: Readonly<Record<string, Accepts>>,
  some: Readonly<Record<string, Accepts>> = {},
): Accepts {
  return (v) => {
    if (typeof v !== 'object' || v === null || Array.isArray(v)) return false;
    const given = v as Readonly<Record<string, unknown>>;
    const known = (key: string) =>
      Object.hasOwn(all, key) ? all[key] : Object.hasOwn(some, key) ? some[key] : undefined;
    return (
      Object.keys(all).every((key) => Object.hasOwn(given, key)) &&
      Object.keys(given).every((key) => known(key)?.(given[key]) ?? false)
    );
  };
}

/** Entries that are told apart by an `id` of their own, in a list. */
export function isListWithIds(
  all: Readonly<Record<string, Accepts>>,
  some: Readonly<Record<string, Accepts>> = {},
): Accepts {
  const list = isListOf(isRecordOf({ id: isName, ...all }, some));
  return (v) => list(v) && new Set((v as readonly { id: string }[]).map((e) => e.id)).size === (v as unknown[]).length;
}

const isName: Accepts = (v) => typeof v === 'string' && v !== '' && v.length <= 80;
