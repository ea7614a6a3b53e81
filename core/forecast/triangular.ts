/** Corners of a triangular distribution, mm: `least <= likely <= most`. */
export interface Triangle {
  readonly leastMm: number;
  readonly likelyMm: number;
  readonly mostMm: number;
}

/**
 * The value of a triangular distribution below which the share `u` lies, mm (inverse of its distribution function).
 *
 * @param u share, 0 to 1: 0 gives the least, 1 the most.
 * Three equal corners give that value for every share. Corners out of order are put in order.
 * Source: the distribution's definition. Example: corners 0, 1, 3 and u = 1/3 give 1, the likely value.
 */
export function triangularMm({ leastMm, likelyMm, mostMm }: Triangle, u: number): number {
  const least = Math.min(leastMm, likelyMm);
  const most = Math.max(mostMm, likelyMm);
  const width = most - least;
  if (width === 0) return likelyMm;
  const rise = likelyMm - least;
  return u < rise / width ? least + Math.sqrt(u * width * rise) : most - Math.sqrt((1 - u) * width * (most - likelyMm));
}
