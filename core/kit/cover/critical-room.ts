import { WORD_BITS } from '../set-mask.ts';
import type { Cover } from './cover.ts';

/**
 * A room that sets only leave, and come back to in the reverse order. For each covered group it knows the sets that
 * every whole option of the group holds (critical: without any one of them the group is lost), and for each set the weight
 * that would be lost with it.
 */
export class CriticalRoom {
  readonly cover: Cover;
  /** Weight lost if this set left, exactly. */
  readonly loss: Float64Array;
  /** Critical sets of each group, two words; both 0 while it is not covered. */
  readonly low: Int32Array;
  readonly high: Int32Array;
  /** Whole options that hold each set. */
  readonly uses: Int32Array;
  covered = 0;
  private readonly missing: Int32Array;
  private readonly whole: Int32Array;
  private readonly stamp: Int32Array;
  private turn = 0;

  /** The room with every set in it. */
  constructor(cover: Cover) {
    const groups = cover.weights.length;
    this.cover = cover;
    this.loss = new Float64Array(cover.sets);
    this.low = new Int32Array(groups);
    this.high = new Int32Array(groups);
    this.uses = Int32Array.from(cover.holding, (list) => list.length);
    this.missing = new Int32Array(cover.groupOf.length);
    this.whole = new Int32Array(groups);
    this.stamp = new Int32Array(groups);
    for (let g = 0; g < groups; g++) {
      this.whole[g] = (cover.first[g + 1] as number) - (cover.first[g] as number);
      this.covered += cover.weights[g] as number;
      this.see(g);
    }
  }

  leave(set: number): void {
    const { cover, missing, whole } = this;
    const { groupOf, weights } = cover;
    this.turn++;
    for (const o of cover.holding[set] as Int32Array) {
      const before = missing[o] as number;
      missing[o] = before + 1;
      if (before > 0) continue;
      this.count(o, -1);
      const g = groupOf[o] as number;
      const left = (whole[g] as number) - 1;
      whole[g] = left;
      if (left === 0) this.covered -= weights[g] as number;
      this.touch(g);
    }
    this.seeTouched(set);
  }

  /** Brings back the set that left last. */
  comeBack(set: number): void {
    const { cover, missing, whole } = this;
    const { groupOf, weights } = cover;
    this.turn++;
    for (const o of cover.holding[set] as Int32Array) {
      const after = (missing[o] as number) - 1;
      missing[o] = after;
      if (after > 0) continue;
      this.count(o, 1);
      const g = groupOf[o] as number;
      if (whole[g] === 0) this.covered += weights[g] as number;
      whole[g] = (whole[g] as number) + 1;
      this.touch(g);
    }
    this.seeTouched(set);
  }

  /** Counts the sets of an option that has become whole, or is whole no more. */
  private count(option: number, by: number): void {
    const { uses, cover } = this;
    for (let word = cover.low[option] as number; word !== 0; word &= word - 1) {
      const set = 31 - Math.clz32(word & -word);
      uses[set] = (uses[set] as number) + by;
    }
    for (let word = cover.high[option] as number; word !== 0; word &= word - 1) {
      const set = WORD_BITS + 31 - Math.clz32(word & -word);
      uses[set] = (uses[set] as number) + by;
    }
  }

  /** Takes a group's weight out of the losses once in a turn, until it is seen anew. */
  private touch(g: number): void {
    if (this.stamp[g] === this.turn) return;
    this.stamp[g] = this.turn;
    this.charge(g, -(this.cover.weights[g] as number));
  }

  private seeTouched(set: number): void {
    const { groupOf, holding } = this.cover;
    for (const o of holding[set] as Int32Array) {
      const g = groupOf[o] as number;
      if (this.stamp[g] !== this.turn) continue;
      this.stamp[g] = 0;
      this.see(g);
    }
  }

  /** Finds the critical sets of a group, and adds its weight to their losses. */
  private see(g: number): void {
    const { cover, missing } = this;
    let low = -1;
    let high = -1;
    let any = false;
    for (let o = cover.first[g] as number; o < (cover.first[g + 1] as number); o++) {
      if (missing[o] !== 0) continue;
      any = true;
      low &= cover.low[o] as number;
      high &= cover.high[o] as number;
      if ((low | high) === 0) break;
    }
    this.low[g] = any ? low : 0;
    this.high[g] = any ? high : 0;
    this.charge(g, cover.weights[g] as number);
  }

  private charge(g: number, weight: number): void {
    const { loss } = this;
    for (let word = this.low[g] as number; word !== 0; word &= word - 1) {
      const set = 31 - Math.clz32(word & -word);
      loss[set] = (loss[set] as number) + weight;
    }
    for (let word = this.high[g] as number; word !== 0; word &= word - 1) {
      const set = WORD_BITS + 31 - Math.clz32(word & -word);
      loss[set] = (loss[set] as number) + weight;
    }
  }
}
