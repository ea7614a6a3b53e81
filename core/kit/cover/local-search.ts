import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Cover } from './cover.ts';
import { Room } from './room.ts';

/** A room as the search knows it. */
export interface FoundRoom {
  readonly here: Uint8Array;
  readonly cost: number;
  readonly covered: number;
}

/** Two costs closer than this are one. */
export const SAME_COST = 1e-9;

/** Whether a room is to be preferred: less cost; at the same cost, more covered. */
export const betterRoom = (a: { cost: number; covered: number }, b: { cost: number; covered: number }): boolean =>
  a.cost < b.cost - SAME_COST || (a.cost <= b.cost + SAME_COST && a.covered > b.covered);

export interface SearchFor {
  /** Weight that is to be covered; reachable with all sets. */
  readonly need: number;
  readonly seed: number;
  /** Times that the room is shaken and settled again. */
  readonly rounds: number;
}

const ROUNDS_BETWEEN_REPORTS = 16;

/**
 * A good room, fast: everything is brought, then left set by set, the dearest for what it covers first; then a few
 * sets are thrown out or brought by chance, and the room is settled again. What is worse by little is gone on with.
 * Yields the best room whenever it got better, and now and then with null so that the caller may stop; the same seed
 * gives the same rooms.
 */
export function* searchRooms(cover: Cover, { need, seed, rounds }: SearchFor): Generator<FoundRoom | null, void> {
  const room = new Room(cover);
  for (let set = 0; set < cover.sets; set++) room.bring(set);
  const generator = xoroshiro128plus(seed);
  const pick = (below: number): number => uniformInt(generator, 0, below - 1);
  leaveWhatIsNotNeeded(room, need, () => 1);
  let best = copyOf(room);
  let current = best;
  yield best;
  if (cover.sets < 2) return;
  const most = Math.max(2, Math.min(6, cover.sets >> 2));
  for (let round = 1; round <= rounds; round++) {
    shake(room, 1 + pick(most), pick);
    bringUntilCovered(room, need, pick);
    leaveWhatIsNotNeeded(room, need, () => 0.7 + pick(601) / 1000);
    if (betterRoom(room, best)) {
      best = copyOf(room);
      current = best;
      yield best;
    } else if (room.cost <= current.cost + SAME_COST || pick(20) === 0) current = copyOf(room);
    else room.become(current.here);
    if (round % (20 * most) === 0) {
      current = best;
      room.become(best.here);
    }
    if (round % ROUNDS_BETWEEN_REPORTS === 0) yield null;
  }
}

const copyOf = (room: Room): FoundRoom => ({
  here: Uint8Array.from(room.here),
  cost: room.cost,
  covered: room.covered,
});

/** Turns a few sets round: what is here goes, what is not comes. */
function shake(room: Room, times: number, pick: (below: number) => number): void {
  for (let n = 0; n < times; n++) {
    const set = pick(room.cover.sets);
    if (room.here[set]) room.leave(set);
    else room.bring(set);
  }
}

/** Brings what covers most for its cost until enough is covered; by chance where no single set covers more. */
function bringUntilCovered(room: Room, need: number, pick: (below: number) => number): void {
  const { sets, costs } = room.cover;
  while (room.covered < need) {
    let next = -1;
    let most = 0;
    for (let set = 0; set < sets; set++) {
      if (room.here[set]) continue;
      const gain = (Math.min(need, room.coveredWith(set)) - room.covered) / ((costs[set] as number) + 1e-6);
      if (gain > most) {
        most = gain;
        next = set;
      }
    }
    if (next < 0) {
      const away = [...room.here.keys()].filter((set) => !room.here[set]);
      next = away[pick(away.length)] as number;
    }
    room.bring(next);
  }
}

/** Leaves sets while enough stays covered: the one that spares most for the weight it uncovers first. */
function leaveWhatIsNotNeeded(room: Room, need: number, taste: () => number): void {
  const { costs, total } = room.cover;
  let open = [...room.here.keys()].filter((set) => room.here[set]);
  while (open.length > 0) {
    let next = -1;
    let most = Number.NEGATIVE_INFINITY;
    const still: number[] = [];
    for (const set of open) {
      const left = room.coveredWithout(set);
      if (left < need) continue;
      still.push(set);
      const worth = (taste() * (costs[set] as number)) / (room.covered - left + 1e-3 * total + 1e-9);
      if (worth > most) {
        most = worth;
        next = set;
      }
    }
    if (next < 0) return;
    room.leave(next);
    open = still.filter((set) => set !== next);
  }
}
