/**
 * Keeps the newest of each costly step, so that a change of what only a later step reads does not repeat the earlier ones:
 * ticking a set does not draw the knees anew. Whoever asks again and again holds one; its answers are those without it.
 */
export class SurpriseMemory {
  private readonly kept = new Map<string, { readonly key: string; readonly value: unknown }>();

  /** The value of a step made from just this, or null. */
  recall<T>(step: string, key: string): T | null {
    const known = this.kept.get(step);
    return known?.key === key ? (known.value as T) : null;
  }

  keep<T>(step: string, key: string, value: T): T {
    this.kept.set(step, { key, value });
    return value;
  }
}
