import type { BoneState } from '../gaps/bone-state.ts';
import { SPREAD_FIELDS, type SpreadField } from './uncertain-knee.ts';

type Sided = 'femurDistalMm' | 'femurPosteriorMm' | 'tibiaMm' | 'extensionLaxityMm' | 'flexionLaxityMm';
type Single = Exclude<SpreadField, `${Sided}.${string}`>;

/** Number of a bone state under its dotted name, mm or deg; null = not measured. */
export function fieldOf(state: BoneState, field: SpreadField): number | null {
  const [name, side] = field.split('.') as [string, ('medial' | 'lateral')?];
  return side === undefined ? state[name as Single] : state[name as Sided][side];
}

/** Fields that a state has measured: those whose spread matters. */
export const measuredFields = (state: BoneState): readonly SpreadField[] =>
  SPREAD_FIELDS.filter((field) => fieldOf(state, field) !== null);

/** Amounts by field, mm or deg; absent = 0. */
export type Moves = Partial<Record<SpreadField, number>>;

/** What no draw goes below (FOR-3): the shape of the model, not anatomy. */
const LEAST = { behindMm: 0, canalMm: 5, widthMm: 30 } as const;

/** A bone state with its numbers moved by the given amounts; what was not measured stays so (FOR-3). */
export function movedState(state: BoneState, moves: Moves): BoneState {
  const both = (name: Sided) => ({
    medial: state[name].medial + (moves[`${name}.medial`] ?? 0),
    lateral: state[name].lateral + (moves[`${name}.lateral`] ?? 0),
  });
  const one = (name: Exclude<Single, 'femurCanalMm' | 'tibiaCanalMm'>) => state[name] + (moves[name] ?? 0);
  const canal = (name: 'femurCanalMm' | 'tibiaCanalMm') => {
    const now = state[name];
    return now === null || !moves[name] ? now : Math.max(LEAST.canalMm, now + moves[name]);
  };
  return {
    ...state,
    femurDistalMm: both('femurDistalMm'),
    femurPosteriorMm: both('femurPosteriorMm'),
    anteriorToPosteriorMm: Math.max(LEAST.widthMm, one('anteriorToPosteriorMm')),
    femurWidthMm: Math.max(LEAST.widthMm, one('femurWidthMm')),
    tibiaWidthMm: Math.max(LEAST.widthMm, one('tibiaWidthMm')),
    tibiaMm: both('tibiaMm'),
    extensionLaxityMm: both('extensionLaxityMm'),
    flexionLaxityMm: both('flexionLaxityMm'),
    flexionContactBehindMm: Math.max(LEAST.behindMm, one('flexionContactBehindMm')),
    referenceSlopeDeg: one('referenceSlopeDeg'),
    femurCanalMm: canal('femurCanalMm'),
    tibiaCanalMm: canal('tibiaCanalMm'),
  };
}
