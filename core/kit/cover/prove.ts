import { maskOf } from '../set-mask.ts';
import type { Cover } from './cover.ts';
import { CriticalRoom } from './critical-room.ts';
import { betterRoom, type FoundRoom, SAME_COST } from './local-search.ts';
import { type Free, SavingsBound } from './savings-bound.ts';

export interface Prove {
  /** Weight that is to be covered; reachable with all sets. */
  readonly need: number;
  /** Best room known. */
  readonly best: FoundRoom;
  /** Nodes after which it stops, unproven. */
  readonly nodes: number;
}

/** How far the proof is. */
export interface Proof {
  readonly best: FoundRoom;
  /** Least cost that any room can have, as far as is proven. */
  readonly leastCost: number;
  readonly proven: boolean;
  readonly nodes: number;
}

/** A decision that is open: the set left, or the set kept; and what was settled on the way to it. */
interface Level {
  readonly set: number;
  readonly bound: number;
  kept: boolean;
  /** Sets kept at this level because too much would be lost with them. */
  forced: number[];
  useless: number[];
}

const NODES_BETWEEN_REPORTS = 256;

/**
 * Branch and bound: proves the best room, or finds a better one on the way. Sets leave the full room one by one; where a
 * set would take more with it than may be lost, it stays; where what can still be saved does not beat the best
 * room (`SavingsBound`), the branch ends. Yields now and then, with the least cost proven so far.
 */
export function* proveRoom(cover: Cover, { need, best, nodes }: Prove): Generator<Proof, Proof> {
  const search = new ProofSearch(cover, need, best);
  let visited = 0;
  let going = true;
  while (going && visited < nodes) {
    going = search.step();
    visited++;
    if (visited % NODES_BETWEEN_REPORTS === 0) yield search.proof(false, visited);
  }
  return search.proof(!going, visited);
}

class ProofSearch {
  private readonly room: CriticalRoom;
  private readonly bound: SavingsBound;
  private readonly need: number;
  private readonly free: Free;
  private readonly levels: Level[] = [];
  private cost: number;
  private best: FoundRoom;
  private readonly left: Uint8Array;
  private down = true;

  constructor(cover: Cover, need: number, best: FoundRoom) {
    this.room = new CriticalRoom(cover);
    this.bound = new SavingsBound(this.room);
    this.need = need;
    this.best = best;
    this.free = { low: 0, high: 0, list: [] };
    this.left = new Uint8Array(cover.sets);
    this.cost = cover.costs.reduce((sum, c) => sum + c, 0);
    for (let set = 0; set < cover.sets; set++) this.release(set);
  }

  proof(proven: boolean, nodes: number): Proof {
    const open = this.levels.filter((l) => !l.kept).map((l) => l.bound);
    const here = this.levels.at(-1)?.bound ?? 0;
    const leastCost = proven ? this.best.cost : Math.min(this.best.cost, here, ...open);
    return { best: this.best, leastCost, proven, nodes };
  }

  /** Visits one node, or goes back to the next open decision; false = nothing is open any more. */
  step(): boolean {
    if (this.down) {
      this.down = this.visit();
      return this.down || this.levels.length > 0;
    }
    return this.goBack();
  }

  /** Looks at the room as it stands; true = it was branched, and its first child is the room now. */
  private visit(): boolean {
    const { room, free, need } = this;
    const slack = room.covered - need;
    if (slack < 0) return false;
    const forced: number[] = [];
    const useless: number[] = [];
    for (const set of [...free.list]) {
      if ((room.loss[set] as number) > slack) forced.push(set);
      else if (room.uses[set] === 0) useless.push(set);
    }
    for (const set of forced) this.hold(set);
    for (const set of useless) this.take(set);
    this.offer();
    const { most, next } = this.bound.most(free, slack);
    const least = this.cost - most;
    const hopeless =
      next < 0 ||
      least > this.best.cost + SAME_COST ||
      (least > this.best.cost - SAME_COST && room.covered <= this.best.covered);
    if (hopeless) {
      for (const set of useless.toReversed()) this.giveBack(set);
      for (const set of forced) this.release(set);
      return false;
    }
    this.levels.push({ set: next, bound: least, kept: false, forced, useless });
    this.take(next);
    return true;
  }

  private goBack(): boolean {
    const level = this.levels.at(-1);
    if (!level) return false;
    if (!level.kept) {
      this.giveBack(level.set);
      this.hold(level.set);
      level.kept = true;
      this.down = true;
      return true;
    }
    this.release(level.set);
    for (const set of level.useless.toReversed()) this.giveBack(set);
    for (const set of level.forced) this.release(set);
    this.levels.pop();
    return this.levels.length > 0;
  }

  private offer(): void {
    const { room, best, cost } = this;
    if (!betterRoom({ cost, covered: room.covered }, best)) return;
    this.best = { here: this.left.map((gone) => 1 - gone), cost, covered: room.covered };
  }

  private take(set: number): void {
    this.hold(set);
    this.left[set] = 1;
    this.cost -= this.room.cover.costs[set] as number;
    this.room.leave(set);
  }

  private giveBack(set: number): void {
    this.release(set);
    this.left[set] = 0;
    this.cost += this.room.cover.costs[set] as number;
    this.room.comeBack(set);
  }

  /** The set stays: it is free no more. */
  private hold(set: number): void {
    const mask = maskOf(set);
    this.free.low &= ~mask[0];
    this.free.high &= ~mask[1];
    this.free.list.splice(this.free.list.indexOf(set), 1);
  }

  private release(set: number): void {
    const mask = maskOf(set);
    this.free.low |= mask[0];
    this.free.high |= mask[1];
    this.free.list.push(set);
  }
}
