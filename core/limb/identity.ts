import type { Warning } from '../measure/outcome.ts';

/**
 * What is left of the identity HKA = MPTA - mLDFA - JLCA, deg, with the values as reported. It closes to rounding error
 * when all four are read from the same marks of one film; more than 0.1 means that marks are inconsistent (LIMB-18). Derived.
 */
export const identityResidual = (v: {
  readonly hka: number;
  readonly mpta: number;
  readonly mldfa: number;
  readonly jlca: number;
}): number => v.hka - (v.mpta - v.mldfa - v.jlca);

/** Largest residual that counts as closed, deg. */
export const IDENTITY_LIMIT_DEG = 0.1;

export const identityCaution = (residual: number): Warning | null =>
  Math.abs(residual) > IDENTITY_LIMIT_DEG
    ? {
        code: 'landmarks-inconsistent',
        message: `HKA, MPTA, mLDFA and JLCA do not add up: ${residual.toFixed(1)} degrees are left over. They were read from different films or centres, or marks are exchanged.`,
        mend: 'Mark hip, knee, ankle and both joint lines on one long-leg film and check that medial and lateral are not exchanged.',
      }
    : null;
