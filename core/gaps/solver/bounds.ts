import type { Catalogue } from '../../catalogue/catalogue.ts';
import { ACCEPTS } from '../../constraint/least-constraint.ts';
import type { SolverSettings } from '../construct.ts';
import type { ByHand } from '../pinned/by-hand.ts';

/** The hard limits of spec section 5 as numbers, so that one of them can be eased to see whether it was the one. */
export interface Bounds {
  readonly cementMm: number;
  readonly cutMm: number;
  readonly overhangMm: number;
  readonly flangeGapMm: number;
  readonly leastPolyethyleneMm: number;
  /** Added to the opening and to the gap difference that each level of constraint accepts, mm. */
  readonly openingEaseMm: number;
  readonly gapDifferenceEaseMm: number;
  /** Ladder position below which the ligaments forbid to go. */
  readonly leastRank: number;
  readonly stemsDemanded: boolean;
  readonly zonesDemanded: boolean;
  /** What a person fixed; absent = nothing. */
  readonly byHand?: ByHand;
}

export const boundsOf = (catalogue: Catalogue, settings: SolverSettings, leastRank: number): Bounds => ({
  cementMm: catalogue.limits.cementMm,
  cutMm: catalogue.limits.cutMm,
  overhangMm: catalogue.limits.overhangMm,
  flangeGapMm: catalogue.limits.flangeGapMm,
  leastPolyethyleneMm: settings.leastPolyethyleneMm,
  openingEaseMm: 0,
  gapDifferenceEaseMm: 0,
  leastRank,
  stemsDemanded: true,
  zonesDemanded: true,
});

export const acceptedOpeningMm = (bounds: Bounds, level: keyof typeof ACCEPTS): number =>
  ACCEPTS[level].openingMm + bounds.openingEaseMm;

export const acceptedGapDifferenceMm = (bounds: Bounds, level: keyof typeof ACCEPTS): number =>
  ACCEPTS[level].flexionLessExtensionMm + bounds.gapDifferenceEaseMm;
