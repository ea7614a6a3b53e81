/** What a kit list says: words and numbers only, so that the paper computes nothing. */
export interface KitListContent {
  readonly hospital: string;
  readonly invented: boolean;
  /** Day of surgery, or null where it is not set; then no order-by dates are told. */
  readonly surgeryOn: string | null;
  /** The three lines that lead: what will most likely be done, how sure, what must be in the room. */
  readonly lead: readonly string[];
  readonly sets: readonly KitListRow[];
  /** Sets that were weighed and are left, in words. */
  readonly left: readonly string[];
  /** What is not answered by this room, most frequent first, in words with shares. */
  readonly uncovered: readonly string[];
  /** If it turns out so: do that. */
  readonly bailOuts: readonly string[];
  /** What if a set does not arrive. */
  readonly missing: readonly string[];
  /** Stock that is expired or short, and what was not stated. */
  readonly cautions: readonly string[];
  /** How it was reckoned: draws, seed, versions. */
  readonly reckoned: string;
}

export interface KitListRow {
  readonly ref: string;
  readonly name: string;
  readonly owner: 'own shelf' | 'loan';
  readonly trays: number;
  readonly cost: string;
  /** Day by which it must be ordered; empty for an own set. */
  readonly orderBy: string;
  /** True where that day has passed. */
  readonly late: boolean;
  /** What it adds to the share that has an answer, in words. */
  readonly adds: string;
}
