/** An antibiotic reported in bone cement, CEM-1. Ranges are what was reported, never a prescription. */
export interface CementAgent {
  readonly id: string;
  readonly label: string;
  /** Reported grams of base per 40 g of powder, least and most. */
  readonly reportedPer40g: readonly [number, number];
  readonly covers: string;
  readonly curing: 'stable' | 'acceptable' | 'poor';
  readonly betaLactam: boolean;
  readonly aminoglycoside: boolean;
  readonly note?: string;
}

const agent = (
  id: string,
  label: string,
  reportedPer40g: readonly [number, number],
  covers: string,
  more: Partial<CementAgent> = {},
): CementAgent => ({
  id,
  label,
  reportedPer40g,
  covers,
  curing: 'acceptable',
  betaLactam: false,
  aminoglycoside: false,
  ...more,
});

/** Reported ranges: consensus table (from memory); teicoplanin: one author's report. */
export const CEMENT_AGENTS: readonly CementAgent[] = [
  agent('gentamicin', 'Gentamicin', [0.25, 4.8], 'Gram-negative, staphylococci', {
    curing: 'stable',
    aminoglycoside: true,
  }),
  agent('tobramycin', 'Tobramycin', [1, 4.8], 'Gram-negative with Pseudomonas', {
    curing: 'stable',
    aminoglycoside: true,
  }),
  agent('vancomycin', 'Vancomycin', [0.5, 4], 'Gram-positive with resistant staphylococci, enterococci', {
    curing: 'stable',
  }),
  agent('clindamycin', 'Clindamycin', [1, 2], 'Gram-positive, anaerobes', { curing: 'stable' }),
  agent('erythromycin', 'Erythromycin', [0.5, 1], 'Gram-positive', { curing: 'stable' }),
  agent('cefazolin', 'Cefazolin', [1, 2], 'Gram-positive', { betaLactam: true }),
  agent('cefuroxime', 'Cefuroxime', [1.5, 2], 'broad', { betaLactam: true }),
  agent('cefotaxime', 'Cefotaxime', [2, 2], 'Gram-negative', { betaLactam: true }),
  agent('ceftazidime', 'Ceftazidime', [2, 2], 'Pseudomonas', { betaLactam: true }),
  agent('meropenem', 'Meropenem', [0.5, 4], 'broad, resistant Gram-negative, anaerobes', { betaLactam: true }),
  agent('aztreonam', 'Aztreonam', [4, 4], 'Gram-negative', { curing: 'stable', betaLactam: true }),
  agent('ciprofloxacin', 'Ciprofloxacin', [0.2, 3], 'Gram-negative'),
  agent('colistin', 'Colistin', [0.24, 0.24], 'highly resistant Gram-negative'),
  agent('daptomycin', 'Daptomycin', [2, 2], 'Gram-positive'),
  agent('linezolid', 'Linezolid', [1.2, 1.2], 'Gram-positive'),
  agent('teicoplanin', 'Teicoplanin', [0.8, 0.8], 'Gram-positive'),
  agent('amphotericin-b', 'Amphotericin B', [0.2, 0.2], 'fungi', {
    note: 'Elutes poorly; the liposomal form elutes more.',
  }),
  agent('voriconazole', 'Voriconazole', [0.3, 0.6], 'fungi', { note: 'Weakens cement.' }),
];

/** Drugs that ruin the curing or do not survive it, with why (from memory). */
export const NOT_IN_CEMENT: Readonly<Record<string, string>> = {
  rifampicin: 'stops the cement from curing',
  chloramphenicol: 'not suitable in cement',
  tetracycline: 'not suitable in cement',
  doxycycline: 'not suitable in cement',
  flucloxacillin: 'does not survive the heat of curing',
  amoxicillin: 'does not survive the heat of curing',
};

/** Grams of salt that hold one gram of base; gentamicin sulfate from memory. Other salts are not known here. */
export const SALT_PER_BASE: Readonly<Record<string, number>> = { gentamicin: 1.7 };
