import { WORD_BITS } from '../set-mask.ts';
import type { CriticalRoom } from './critical-room.ts';

/** Sets that may still be left, as two words and in a list. */
export interface Free {
  low: number;
  high: number;
  readonly list: number[];
}

/** What can be saved at most, and the set that matters most for it. */
export interface Savings {
  readonly most: number;
  /** Set to decide next; -1 = none is free. */
  readonly next: number;
}

/**
 * Upper bound of the cost that can still be saved by leaving free sets while no more than `slack` of weight is lost.
 *
 * A group is lost as soon as one of its critical sets leaves. Its weight is laid on one of them, so the weights of those that leave
 * add up to no more than what is lost: a knapsack, whose fractional optimum is the bound (Dantzig 1957). Which set takes
 * the weight is free to choose: the one that is cheapest to leave for its cost so far.
 */
export class SavingsBound {
  private readonly room: CriticalRoom;
  private readonly price: Float64Array;
  private readonly shared: number[] = [];

  constructor(room: CriticalRoom) {
    this.room = room;
    this.price = new Float64Array(room.cover.sets);
  }

  most(free: Free, slack: number): Savings {
    this.layWeights(free);
    const { price } = this;
    const { costs } = this.room.cover;
    const order = free.list.toSorted(
      (a, b) => (costs[b] as number) * (price[a] as number) - (costs[a] as number) * (price[b] as number) || a - b,
    );
    let left = slack;
    let most = 0;
    let next = -1;
    let score = -1;
    for (const set of order) {
      const [cost, weight] = [costs[set] as number, price[set] as number];
      const part = weight <= left ? 1 : left / weight;
      if (part <= 0) break;
      left -= part * weight;
      most += part * cost;
      if (cost * part * (1 + weight) > score) {
        score = cost * part * (1 + weight);
        next = set;
      }
    }
    return { most, next };
  }

  private layWeights({ low, high }: Free): void {
    const { price, room, shared } = this;
    const { weights } = room.cover;
    price.fill(0);
    shared.length = 0;
    for (let g = 0; g < weights.length; g++) {
      const a = (room.low[g] as number) & low;
      const b = (room.high[g] as number) & high;
      if ((a | b) === 0) continue;
      if ((b === 0 && (a & (a - 1)) === 0) || (a === 0 && (b & (b - 1)) === 0)) {
        const set = a !== 0 ? 31 - Math.clz32(a) : WORD_BITS + 31 - Math.clz32(b);
        price[set] = (price[set] as number) + (weights[g] as number);
      } else shared.push(g);
    }
    for (const g of shared) this.layOnCheapest((room.low[g] as number) & low, (room.high[g] as number) & high, g);
  }

  private layOnCheapest(low: number, high: number, g: number): void {
    const { price, room } = this;
    const { costs, weights } = room.cover;
    let cheapest = -1;
    let least = Number.POSITIVE_INFINITY;
    const look = (set: number) => {
      const ratio = (price[set] as number) / ((costs[set] as number) + 1e-12);
      if (ratio < least) {
        least = ratio;
        cheapest = set;
      }
    };
    for (let word = low; word !== 0; word &= word - 1) look(31 - Math.clz32(word & -word));
    for (let word = high; word !== 0; word &= word - 1) look(WORD_BITS + 31 - Math.clz32(word & -word));
    price[cheapest] = (price[cheapest] as number) + (weights[g] as number);
  }
}
