/** A set of items as bits, 32 a word: knees that answer yes, knees that a construct serves. */
export type Bits = Uint32Array;

/** The items for which a condition holds. */
export function bitsOf(size: number, holds: (item: number) => boolean): Bits {
  const bits = new Uint32Array(Math.ceil(size / 32));
  for (let i = 0; i < size; i++) if (holds(i)) bits[i >>> 5] = ((bits[i >>> 5] as number) | (1 << (i & 31))) >>> 0;
  return bits;
}

export const has = (bits: Bits, item: number): boolean => (((bits[item >>> 5] ?? 0) >>> (item & 31)) & 1) === 1;

export const and = (a: Bits, b: Bits): Bits => a.map((word, i) => word & (b[i] as number));

export const andNot = (a: Bits, b: Bits): Bits => a.map((word, i) => word & ~(b[i] as number));

/** Ones of a 32-bit word, by halving (Warren 2013, Hacker's Delight, 5-1). */
function ones(word: number): number {
  let v = word - ((word >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** Number of items. */
export function count(bits: Bits): number {
  let n = 0;
  for (const word of bits) n += ones(word);
  return n;
}

/** Number of items in both sets. */
export function countBoth(a: Bits, b: Bits): number {
  let n = 0;
  for (let i = 0; i < a.length; i++) n += ones((a[i] as number) & (b[i] as number));
  return n;
}
