import { AT, type Observation } from './cells.ts';
import type { Block, Compiled } from './compile.ts';
import { pack } from './compile.ts';
import { addTo, settledCode, waysOf } from './worlds.ts';

/** What the blocks of a definition add, block by block. */
export type Adds = (block: Block, known: Observation) => readonly number[];

/**
 * Sums over all blocks but one, for each block in turn: sums from the front and from the back are kept, so that leaving one
 * block out costs one joining instead of a new sum over all. One entry a possible time since the operation.
 */
export interface RestSums {
  readonly known: Observation;
  /** Sums of the blocks before and after the one at this place. */
  readonly front: (place: number) => ReadonlySet<number>;
  readonly back: (place: number) => ReadonlySet<number>;
  /** Sums of all blocks but the one at this place. */
  readonly rest: (place: number) => ReadonlySet<number>;
}

export function restSums(compiled: Compiled, known: Observation, adds: Adds): RestSums {
  const start: ReadonlySet<number> = new Set([settledCode(compiled, pack(compiled, {}))]);
  const { blocks } = compiled;
  const front: ReadonlySet<number>[] = [start];
  for (const block of blocks) front.push(addTo(compiled, front.at(-1)!, adds(block, known)));
  const back: ReadonlySet<number>[] = [start];
  for (const block of blocks.toReversed()) back.unshift(addTo(compiled, back[0]!, adds(block, known)));
  const rests = new Map<number, ReadonlySet<number>>();
  return {
    known,
    front: (place) => front[place]!,
    back: (place) => back[place + 1]!,
    rest: (place) => {
      const before = rests.get(place);
      if (before) return before;
      const sums = addTo(compiled, front[place]!, [...back[place + 1]!]);
      rests.set(place, sums);
      return sums;
    },
  };
}

/** As above for every time since the operation that is still possible. */
export const restSumsByPhase = (compiled: Compiled, known: Observation, adds: Adds): readonly RestSums[] =>
  waysOf(known, [AT.phase]).map((phase) => restSums(compiled, phase, adds));
