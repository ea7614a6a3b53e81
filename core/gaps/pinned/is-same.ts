/** Thicknesses and slopes closer than this are one, mm or deg: what is read from a file carries rounding. */
const SAME = 1e-6;

export const isSame = (a: number, b: number): boolean => Math.abs(a - b) < SAME;
