import type { LigamentState } from '../bone/bone-class.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Compartment } from '../landmarks/side.ts';
import { type Triangle, triangularMm } from './triangular.ts';

/** What a side opens more, at 0 and at 90 degrees, when its ligament is one grade worse than entered, mm (FOR-7; grade D). */
export const OPENS_BESIDES: Triangle = { leastMm: 0, likelyMm: 2, mostMm: 5 };

/** One grade worse (FOR-7); a ligament that was not examined counts as gone when it turns out worse. */
export const WEAKER: Readonly<Record<LigamentState, LigamentState>> = {
  intact: 'attenuated',
  attenuated: 'absent',
  absent: 'absent',
  unknown: 'absent',
};

/**
 * The knee with the collateral ligament of one side a grade worse than entered, and that side looser (FOR-7).
 *
 * @param u share 0 to 1 of the further opening, mm, + = looser.
 */
export function weakerLigament(state: BoneState, side: Compartment, u: number): BoneState {
  const ligament = side === 'medial' ? 'mcl' : 'lcl';
  if (state[ligament] === 'absent') return state;
  const opens = triangularMm(OPENS_BESIDES, u);
  return {
    ...state,
    [ligament]: WEAKER[state[ligament]],
    extensionLaxityMm: { ...state.extensionLaxityMm, [side]: state.extensionLaxityMm[side] + opens },
    flexionLaxityMm: { ...state.flexionLaxityMm, [side]: state.flexionLaxityMm[side] + opens },
  };
}
