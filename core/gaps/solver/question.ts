import type { BoneState } from '../bone-state.ts';
import type { Prices } from '../price.ts';
import type { Bounds } from './bounds.ts';
import type { HoldMemory } from './hold-memory.ts';
import type { Prepared } from './prepared.ts';

/** What a search is asked: one bone state with one catalogue, one table of weights, and what is allowed. */
export interface Question {
  readonly prepared: Prepared;
  readonly state: BoneState;
  readonly prices: Prices;
  readonly bounds: Bounds;
  /** What holds bones, kept from other states of the same catalogue and weights; absent = nothing kept. */
  readonly memory?: HoldMemory;
}
