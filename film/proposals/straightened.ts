/** Each value replaced by the straight line of least squares through those within `reach` of it, read at its place. */
export function straightened(values: readonly number[], reach: number): number[] {
  return values.map((_, i) => {
    const from = Math.max(0, i - reach);
    const near = values.slice(from, i + reach + 1);
    const n = near.length;
    const x0 = (n - 1) / 2;
    const mean = near.reduce((s, v) => s + v, 0) / n;
    const xx = near.reduce((s, _v, k) => s + (k - x0) ** 2, 0);
    const xy = near.reduce((s, v, k) => s + (k - x0) * (v - mean), 0);
    return mean + (xx > 0 ? xy / xx : 0) * (i - from - x0);
  });
}
