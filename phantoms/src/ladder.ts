/** Rising curve through pairs of (from, to), smooth and without overshoot (Fritsch and Carlson 1980), straight beyond its ends. */
export function ladder(pairs: readonly (readonly [number, number])[]): (x: number) => number {
  const p = [...pairs].sort((a, b) => a[0] - b[0]);
  const n = p.length;
  const slope = (i: number) => (p[i + 1]![1] - p[i]![1]) / (p[i + 1]![0] - p[i]![0]);
  const tangent = p.map((_, i) => {
    if (i === 0) return slope(0);
    if (i === n - 1) return slope(n - 2);
    const [a, b] = [slope(i - 1), slope(i)];
    return a * b <= 0 ? 0 : (2 * a * b) / (a + b);
  });
  return (x) => {
    if (x <= p[0]![0]) return p[0]![1] + (x - p[0]![0]) * tangent[0]!;
    if (x >= p[n - 1]![0]) return p[n - 1]![1] + (x - p[n - 1]![0]) * tangent[n - 1]!;
    let i = 0;
    while (x > p[i + 1]![0]) i++;
    const h = p[i + 1]![0] - p[i]![0];
    const t = (x - p[i]![0]) / h;
    const [t2, t3] = [t * t, t * t * t];
    return (
      (2 * t3 - 3 * t2 + 1) * p[i]![1] +
      (t3 - 2 * t2 + t) * h * tangent[i]! +
      (-2 * t3 + 3 * t2) * p[i + 1]![1] +
      (t3 - t2) * h * tangent[i + 1]!
    );
  };
}
