import type { BoneState } from '../gaps/bone-state.ts';
import { leastOptions } from './cover/reduce.ts';
import { cutsWith, type Holding } from './holding-sets.ts';
import type { RoomSolver } from './room-solver.ts';
import type { Pieces } from './set-contents.ts';
import { NO_SETS, type SetMask, within, without } from './set-mask.ts';

/** One least combination of sets, and the pieces that are built from it. */
export interface KneeOption {
  readonly sets: SetMask;
  readonly pieces: Pieces;
}

export interface KneeAsked {
  readonly holding: Holding;
  /** Every set that may count. */
  readonly all: SetMask;
  /** The solver of a room with just these sets. */
  readonly roomOf: (sets: SetMask) => RoomSolver;
}

/**
 * Every least combination of sets that covers a knee (KIT-2), found without trying rooms one by one: a room that is
 * covered gives a construct, and the construct tells which sets it takes; a room that is not covered cuts off all that
 * it holds. The next room to ask is always the fullest that the options known so far do not open, so it ends when no such
 * room is covered any more, and then the options are complete ("dualise and advance", Gunopulos 2003).
 *
 * @returns options in a stated order: fewest sets first, then by the list. None where all sets together do not cover it.
 */
export function kneeOptions(state: BoneState, { holding, all, roomOf }: KneeAsked): readonly KneeOption[] {
  let options: KneeOption[] = [];
  let cuts: readonly SetMask[] = [NO_SETS];
  const asked: SetMask[] = [];
  for (;;) {
    const cut = cuts.find((c) => !asked.some((a) => a[0] === c[0] && a[1] === c[1]));
    if (!cut) return options;
    const built = roomOf(without(all, cut)).build(state);
    if (built.length === 0) {
      asked.push(cut);
      continue;
    }
    const found = built.flatMap((pieces) =>
      holding.combinationsFor(pieces).flatMap((sets) => (within(sets, all) ? [{ sets, pieces }] : [])),
    );
    for (const sets of leastOptions(found.map((o) => o.sets))) cuts = cutsWith(cuts, sets);
    const both = [...options, ...found];
    const least = leastOptions(both.map((o) => o.sets));
    options = least.map((sets) => both.find((o) => o.sets === sets) as KneeOption);
  }
}
