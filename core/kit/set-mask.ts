/** A set of sets: bit `i` stands for the i-th set of the list. Two words of 30 bits, so that no word has a sign. */
export type SetMask = readonly [low: number, high: number];

/** Bits in a word, and sets that a list may hold at most. */
export const WORD_BITS = 30;
export const MOST_SETS = 2 * WORD_BITS;

export const NO_SETS: SetMask = [0, 0];

/** The mask of one set, by its place in the list, 0 to 59. */
export const maskOf = (index: number): SetMask => (index < WORD_BITS ? [1 << index, 0] : [0, 1 << (index - WORD_BITS)]);

export const union = (a: SetMask, b: SetMask): SetMask => [a[0] | b[0], a[1] | b[1]];
export const without = (a: SetMask, b: SetMask): SetMask => [a[0] & ~b[0], a[1] & ~b[1]];
export const common = (a: SetMask, b: SetMask): SetMask => [a[0] & b[0], a[1] & b[1]];

/** Whether every set of `a` is in `b`. */
export const within = (a: SetMask, b: SetMask): boolean => (a[0] & ~b[0]) === 0 && (a[1] & ~b[1]) === 0;
export const same = (a: SetMask, b: SetMask): boolean => a[0] === b[0] && a[1] === b[1];
export const isEmpty = (a: SetMask): boolean => a[0] === 0 && a[1] === 0;
export const holds = (a: SetMask, index: number): boolean =>
  index < WORD_BITS ? (a[0] & (1 << index)) !== 0 : (a[1] & (1 << (index - WORD_BITS))) !== 0;

/** Places of the sets in a mask, ascending. */
export function indicesOf([low, high]: SetMask): number[] {
  const found: number[] = [];
  for (let word = low; word !== 0; word &= word - 1) found.push(31 - Math.clz32(word & -word));
  for (let word = high; word !== 0; word &= word - 1) found.push(WORD_BITS + 31 - Math.clz32(word & -word));
  return found;
}

export const maskOfAll = (indices: Iterable<number>): SetMask => {
  let mask: SetMask = NO_SETS;
  for (const index of indices) mask = union(mask, maskOf(index));
  return mask;
};

export const countOf = (mask: SetMask): number => bits(mask[0]) + bits(mask[1]);

function bits(word: number): number {
  let n = 0;
  for (let left = word; left !== 0; left &= left - 1) n++;
  return n;
}

/** Order of masks where nothing else decides: the one that holds the earlier set of the list first. */
export function byList(a: SetMask, b: SetMask): number {
  const low = a[0] ^ b[0];
  if (low !== 0) return (a[0] & (low & -low)) !== 0 ? -1 : 1;
  const high = a[1] ^ b[1];
  return high === 0 ? 0 : (a[1] & (high & -high)) !== 0 ? -1 : 1;
}
