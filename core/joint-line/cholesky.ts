/** Lower Cholesky factor of a symmetric matrix, or null when it is not positive definite. */
export function cholesky(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] | null {
  const lower: number[][] = [];
  for (const [i, row] of matrix.entries()) {
    const now: number[] = [];
    for (let j = 0; j <= i; j++) {
      let sum = row[j] ?? 0;
      for (let k = 0; k < j; k++) sum -= (now[k] ?? 0) * (j === i ? (now[k] ?? 0) : (lower[j]?.[k] ?? 0));
      if (j < i) now.push(sum / (lower[j]?.[j] ?? Number.NaN));
      // Relative to the diagonal: below it the matrix carries no information in that direction.
      else if (sum > 1e-12 * Math.abs(row[i] ?? 0)) now.push(Math.sqrt(sum));
      else return null;
    }
    lower.push(now);
  }
  return lower;
}

/** Solves (L L') x = b by forward and back substitution. */
export function solveCholesky(lower: readonly (readonly number[])[], b: readonly number[]): readonly number[] {
  const n = b.length;
  const y: number[] = [];
  for (let i = 0; i < n; i++) {
    let sum = b[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= (lower[i]?.[k] ?? 0) * (y[k] ?? 0);
    y.push(sum / (lower[i]?.[i] ?? Number.NaN));
  }
  const x = [...y];
  for (let i = n - 1; i >= 0; i--) {
    let sum = y[i] ?? 0;
    for (let k = i + 1; k < n; k++) sum -= (lower[k]?.[i] ?? 0) * (x[k] ?? 0);
    x[i] = sum / (lower[i]?.[i] ?? Number.NaN);
  }
  return x;
}
