/** One weight of the objective (spec section 5): data, so that a practice can change it and see it. */
export interface Weight {
  readonly id: string;
  readonly label: string;
  /** Cost per unit beyond the tolerance. */
  readonly weight: number;
  readonly unit: 'mm' | 'deg' | 'count' | 'level';
  /** Free zone, `[low, high]`, in the same unit. */
  readonly free: readonly [number, number];
  readonly reason: string;
  readonly source: string;
}

export interface WeightTable {
  readonly version: string;
  readonly weights: readonly Weight[];
}
