/** The percentiles that a forecast tells of each length (FOR-9). */
export const PERCENTILES = [5, 25, 50, 75, 95] as const;

/**
 * Percentiles of a sample, in its unit: linear between the order statistics, definition 7 of Hyndman and Fan 1996 (Am
 * Stat 50:361). An empty sample has none. Example: of 1, 2, 3, 4, 5 the 25th is 2.
 */
export function percentilesOf(sample: readonly number[], asked: readonly number[] = PERCENTILES): readonly number[] {
  if (sample.length === 0) return [];
  const sorted = Float64Array.from(sample).sort();
  return asked.map((percent) => {
    const at = ((sorted.length - 1) * percent) / 100;
    const below = sorted[Math.floor(at)] ?? 0;
    const above = sorted[Math.ceil(at)] ?? below;
    return below + (at - Math.floor(at)) * (above - below);
  });
}
