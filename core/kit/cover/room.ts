import type { Cover } from './cover.ts';

/** A room that sets are carried into and out of, with the weight that it covers kept up to date. */
export class Room {
  readonly cover: Cover;
  /** 1 = the set is in the room. */
  readonly here: Uint8Array;
  cost = 0;
  covered = 0;
  /** Sets of each option that are not in the room. */
  private readonly missing: Int32Array;
  /** Whole options of each group. */
  private readonly whole: Int32Array;

  constructor(cover: Cover) {
    this.cover = cover;
    this.here = new Uint8Array(cover.sets);
    this.missing = Int32Array.from(cover.size);
    this.whole = new Int32Array(cover.weights.length);
  }

  bring(set: number): void {
    const { missing, whole, cover } = this;
    const { groupOf, weights } = cover;
    this.here[set] = 1;
    this.cost += cover.costs[set] as number;
    for (const o of cover.holding[set] as Int32Array) {
      const left = (missing[o] as number) - 1;
      missing[o] = left;
      if (left > 0) continue;
      const g = groupOf[o] as number;
      if (whole[g] === 0) this.covered += weights[g] as number;
      whole[g] = (whole[g] as number) + 1;
    }
  }

  leave(set: number): void {
    const { missing, whole, cover } = this;
    const { groupOf, weights } = cover;
    this.here[set] = 0;
    this.cost -= cover.costs[set] as number;
    for (const o of cover.holding[set] as Int32Array) {
      const left = (missing[o] as number) + 1;
      missing[o] = left;
      if (left > 1) continue;
      const g = groupOf[o] as number;
      whole[g] = (whole[g] as number) - 1;
      if (whole[g] === 0) this.covered -= weights[g] as number;
    }
  }

  /** Makes the room hold just these sets. */
  become(sets: Uint8Array): void {
    sets.forEach((wanted, set) => {
      if (wanted === this.here[set]) return;
      if (wanted) this.bring(set);
      else this.leave(set);
    });
  }

  /** Weight that would be covered with the set; it is in the room again, or out of it, afterwards as before. */
  coveredWith(set: number): number {
    this.bring(set);
    const { covered } = this;
    this.leave(set);
    return covered;
  }

  /** Weight that would be covered without the set. */
  coveredWithout(set: number): number {
    this.leave(set);
    const { covered } = this;
    this.bring(set);
    return covered;
  }
}
