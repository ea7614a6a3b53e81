/** Vectors shorter than this have no direction. */
const SHORT = 1e-9;

/** Vectors in (J, q, K), one after another. */
export class Vectors {
  private readonly all: number[] = [];

  get count(): number {
    return this.all.length / 3;
  }

  at(i: number, axis: 0 | 1 | 2): number {
    return this.all[3 * i + axis] as number;
  }

  clear(): void {
    this.all.length = 0;
  }

  /** Adds a vector at length 1; one without length is left out. */
  add(j: number, q: number, k: number): void {
    const length = Math.sqrt(j * j + q * q + k * k);
    if (length >= SHORT) this.all.push(j / length, q / length, k / length);
  }
}
