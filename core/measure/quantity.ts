/** Units that the core speaks. `1` is a ratio. */
export type Unit = 'mm' | 'deg' | 'px' | '1' | '%';

/** A measured value with its standard deviation in the same unit; `sd: null` means exact or stated, not measured. */
export interface Quantity {
  readonly value: number;
  readonly unit: Unit;
  readonly sd: number | null;
}

/** Two-sided 95 % normal interval, `[low, high]`, or null where no spread is known. */
export function interval95(q: Quantity): readonly [number, number] | null {
  return q.sd === null ? null : [q.value - Z95 * q.sd, q.value + Z95 * q.sd];
}

/** 97.5 % quantile of the standard normal distribution. */
export const Z95 = 1.959963984540054;
