import { indicesOf, maskOf, type SetMask, union } from '../set-mask.ts';
import { betterRoom, type FoundRoom, SAME_COST, searchRooms } from './local-search.ts';
import { proveInSteps } from './prove-in-steps.ts';
import type { Reduced } from './reduce.ts';

/** How long to look and to prove, in steps, so that the same question gives the same answer on any machine. */
export interface Effort {
  readonly seed: number;
  /** Times that the room is shaken; absent = by the size of the question. */
  readonly rounds?: number;
  /** Nodes of the proof; absent = by the size of the question. */
  readonly nodes?: number;
}

/** A room in the places of the question, and how sure it is that none is cheaper. */
export interface ChosenRoom {
  readonly sets: SetMask;
  readonly cost: number;
  /** Weight covered. */
  readonly covered: number;
  readonly leastCost: number;
  readonly proven: boolean;
}

export interface RoomProgress {
  readonly phase: 'search' | 'proof';
  readonly room: ChosenRoom;
  readonly done: number;
}

const between = (low: number, x: number, high: number): number => Math.round(Math.max(low, Math.min(x, high)));

/** About a second of looking, and half a minute of proving, whatever the size (bench/kit.ts). */
function effortFor({ cover }: Reduced): { rounds: number; nodes: number } {
  const options = cover.groupOf.length + 1;
  return { rounds: between(60, 1e7 / options, 1000), nodes: between(20_000, 8e9 / options, 2_000_000) };
}

/**
 * The cheapest sets that cover a weight, and most at that cost: a quick search first, then branch and bound that proves
 * it or finds better. What is yielded may be used at any time.
 *
 * @param need weight to cover, of the whole question; it must be reachable: `always` and all of `cover` together.
 */
export function* chooseRooms(reduced: Reduced, need: number, effort: Effort): Generator<RoomProgress, ChosenRoom> {
  const { cover, always } = reduced;
  const usual = effortFor(reduced);
  const [rounds, nodes] = [effort.rounds ?? usual.rounds, effort.nodes ?? usual.nodes];
  const open = Math.max(0, need - always);
  let best: FoundRoom | null = null;
  let turns = 0;
  for (const found of searchRooms(cover, { need: open, seed: effort.seed, rounds })) {
    if (found === null) turns += 16;
    else if (!best || betterRoom(found, best)) best = found;
    if (best) yield { phase: 'search', room: asked(reduced, best, 0), done: Math.min(1, turns / rounds) };
  }
  if (!best) throw new Error('The search gave no room.');
  const proof = proveInSteps(cover, { need: open, best, nodes });
  for (;;) {
    const step = proof.next();
    const { best: room, leastCost, nodes: visited, proven } = step.value;
    const chosen = asked(reduced, room, leastCost, proven);
    if (step.done) return chosen;
    yield { phase: 'proof', room: chosen, done: Math.min(1, visited / nodes) };
  }
}

/** Back to the places and the costs of the question. */
function asked(reduced: Reduced, room: FoundRoom, leastCost: number, proven = false): ChosenRoom {
  let sets = reduced.fixed;
  room.here.forEach((here, i) => {
    if (here) sets = union(sets, maskOf(reduced.placeOf[i] as number));
  });
  const least = reduced.fixedCost + leastCost;
  const cost = reduced.fixedCost + room.cost;
  return {
    sets,
    cost,
    covered: room.covered + reduced.always,
    leastCost: proven || least > cost - SAME_COST ? cost : least,
    proven,
  };
}

/** Weight of the groups that a room covers. */
export function coveredBy(groups: readonly { weight: number; options: readonly SetMask[] }[], room: SetMask): number {
  const [low, high] = [~room[0], ~room[1]];
  let sum = 0;
  for (const { weight, options } of groups)
    if (options.some((o) => (o[0] & low) === 0 && (o[1] & high) === 0)) sum += weight;
  return sum;
}

/** What the sets of a mask cost together. */
export const costOf = (costs: readonly number[], sets: SetMask): number =>
  indicesOf(sets).reduce((sum, i) => sum + (costs[i] as number), 0);
