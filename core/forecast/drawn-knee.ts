import type { BoneState } from '../gaps/bone-state.ts';

/** One knee that may be found: bone, ligaments, and what may happen at removal. */
export interface DrawnKnee {
  readonly state: BoneState;
  /** The bone breaks at removal and wants fixation. */
  readonly fracture: boolean;
  /** Infection that nobody expected: no construct, a spacer instead. */
  readonly infection: boolean;
}
