import type { Catalogue, ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import type { Pinned } from '../pinned/pinned.ts';
import type { WeightTable } from '../weights.ts';

/** What the judge is asked. Kept simple: one stem in the catalogue. */
export interface Trial {
  readonly state: BoneState;
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly leastPolyethyleneMm: number;
  /** What a person fixed by hand; a stem by the reference of the one in the catalogue. Absent = nothing. */
  readonly pinned?: Pinned;
}

export interface Verdict {
  readonly cost: number;
  readonly level: ConstraintLevel;
  readonly femur: string;
  readonly tried: number;
  /** Cost of the arc of motion in the best, so that a test can see that it was in play. */
  readonly arc: number;
  readonly tray: string;
  readonly femoral: Held;
  readonly tibial: Held;
  /** The coupler under the tray of the best, by its reference. */
  readonly trayCoupler: string | null;
}

/** How one bone is held. */
export interface Held {
  readonly cost: number;
  readonly stem: boolean;
  readonly metaphysis: 'none' | 'cone' | 'sleeve';
  /** Flexion that the stem forces on the femoral component, deg. */
  readonly flexionDeg: number;
}

export type W = { readonly w: number; readonly lo: number; readonly hi: number };
export const out = (x: number, { w, lo, hi }: W): number => w * (x < lo ? lo - x : x > hi ? x - hi : 0);
export const TOLERANCE = 1e-7;
export const NEVER = Number.POSITIVE_INFINITY;
export const RANK = { ps: 0, vvc: 1, hinge: 2 } as const;

const looked = new WeakMap<WeightTable, Map<string, W>>();

export function weigh({ weights }: Trial, id: string): W {
  const table = looked.get(weights) ?? new Map<string, W>();
  looked.set(weights, table);
  const known = table.get(id);
  if (known) return known;
  const found = weights.weights.find((x) => x.id === id);
  if (!found) throw new Error(id);
  const made = { w: found.weight, lo: found.free[0], hi: found.free[1] };
  table.set(id, made);
  return made;
}

export function leastRank(s: BoneState): number {
  if (s.extensorMechanism === 'absent' || s.mcl === 'absent') return 2;
  if (s.recurvatumDeg !== null && s.recurvatumDeg >= 10) return 2;
  return s.mcl === 'attenuated' || s.lcl === 'absent' ? 1 : 0;
}
