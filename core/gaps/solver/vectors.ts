/** Vectors shorter than this have no direction. */
const SHORT = 1e-9;

/** Vectors in (J, q, K), one after another. */
export class Vectors {
  private readonly all = [0.5];
  /** How many there are; what lies beyond is left from before. */
  count = 0;

  at(i: number, axis: 0 | 1 | 2): number {
    return this.all[3 * i + axis] as number;
  }

  clear(): void {
    this.count = 0;
  }

  /** Adds a vector at length 1; one without length is left out. */
  add(j: number, q: number, k: number): void {
    const length = Math.sqrt(j * j + q * q + k * k);
    if (length < SHORT) return;
    const i = 3 * this.count++;
    this.all[i] = j / length;
    this.all[i + 1] = q / length;
    this.all[i + 2] = k / length;
  }
}
