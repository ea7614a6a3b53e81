import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';

export interface BloodStainedCounts {
  /** Counts per microlitre. */
  readonly fluidWbc: number;
  readonly fluidRbc: number;
  readonly bloodWbc: number;
  readonly bloodRbc: number;
  /** Shares of white cells, %; both are needed to correct the share. */
  readonly fluidPmnPercent?: number;
  readonly bloodNeutrophilPercent?: number;
}

export interface CorrectedCounts {
  readonly rawWbc: number;
  /** Per microlitre, never below zero. */
  readonly wbc: number;
  readonly rawPmnPercent: number | null;
  /** %, 0 to 100; null where a share is missing or no white cell is left. */
  readonly pmnPercent: number | null;
}

/**
 * LAB-5: takes the white cells that blood brought into an aspirate out of its count:
 * adjusted = observed - (white cells of blood / red cells of blood) x red cells of the fluid, all per microlitre
 * (Ghanem, J Bone Joint Surg Am 2008;90:1637; footnote d of the EBJIS definition, Bone Joint J 2021;103-B:18, from
 * memory). The share of polymorphonuclear cells is corrected by the same subtraction of neutrophils. Raw and corrected
 * are both given. Refuses negative counts and blood without red cells; a correction below zero is zero, with a warning.
 */
export function correctForBlood(counts: BloodStainedCounts): Outcome<CorrectedCounts> {
  const { fluidWbc, fluidRbc, bloodWbc, bloodRbc, fluidPmnPercent, bloodNeutrophilPercent } = counts;
  if (![fluidWbc, fluidRbc, bloodWbc].every((c) => Number.isFinite(c) && c >= 0) || !(bloodRbc > 0))
    return cannot({
      code: 'counts-cannot-be-corrected',
      message: 'The aspirate cannot be corrected for blood: counts must be zero or more, and blood has red cells.',
      field: 'synovial-rbc',
      mend: 'Check the four counts and their units.',
    });
  const perRed = fluidRbc / bloodRbc;
  const adjusted = fluidWbc - bloodWbc * perRed;
  const wbc = Math.max(0, adjusted);
  const warnings: Warning[] =
    adjusted < 0
      ? [{ code: 'more-blood-than-fluid', message: 'Blood accounts for more white cells than were counted; check it.' }]
      : [];
  let pmnPercent: number | null = null;
  if (fluidPmnPercent !== undefined && bloodNeutrophilPercent !== undefined && wbc > 0) {
    const pmn = fluidWbc * fluidPmnPercent - bloodWbc * bloodNeutrophilPercent * perRed;
    pmnPercent = Math.min(100, Math.max(0, pmn / wbc));
  }
  return ok({ rawWbc: fluidWbc, wbc, rawPmnPercent: fluidPmnPercent ?? null, pmnPercent }, warnings);
}
