import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CEMENT_AGENTS } from './agents.ts';
import { candidateAgents, type Sensitivity } from './candidate-agents.ts';
import { type CementPlan, cementLoad } from './cement-load.ts';

const healthy = { kidneyDisease: 'no', betaLactamAllergy: 'no' } as const;
const codes = (plan: CementPlan, patient: Parameters<typeof cementLoad>[1] = healthy) => {
  const r = cementLoad(plan, patient);
  return r.ok ? r.warnings.map((w) => w.code) : [r.reason.code];
};
const spacer = (...drugs: CementPlan['drugs']): CementPlan => ({ use: 'spacer', batches: 3, drugs });

describe('cement with antibiotics', () => {
  test('CEM-1 totals over batches: 3 batches with 2 g vancomycin hold 6 g, inside the reported range', () => {
    const r = cementLoad(spacer({ agent: 'vancomycin', gramsPerBatch: 2, weighedAs: 'base' }), healthy);
    expect(r.ok && r.value.drugs[0]).toMatchObject({ baseGramsTotal: 6, within: 'within' });
    expect(r.ok && r.value.powderPercent).toBeCloseTo(5, 10);
  });

  test('CEM-2 1.7 g gentamicin sulfate is 1 g of base, and salts without a figure are refused', () => {
    const r = cementLoad(spacer({ agent: 'gentamicin', gramsPerBatch: 1.7, weighedAs: 'sulfate' }), healthy);
    expect(r.ok && r.value.drugs[0]?.baseGramsPerBatch).toBeCloseTo(1, 10);
    expect(codes(spacer({ agent: 'tobramycin', gramsPerBatch: 1, weighedAs: 'sulfate' }))).toEqual(['salt-not-known']);
  });

  test('CEM-3 warns of kidney, allergy, 3.6 g a batch, strength and powder share, and always of who decides', () => {
    const heavy: CementPlan = {
      use: 'fixation',
      batches: 1,
      drugs: [{ agent: 'vancomycin', gramsPerBatch: 4.6, weighedAs: 'base' }],
    };
    expect(codes(heavy)).toEqual(['over-3.6-g', 'strength', 'powder-share', 'who-decides']);
    const allergic = codes(spacer({ agent: 'meropenem', gramsPerBatch: 1, weighedAs: 'base' }), {
      kidneyDisease: 'yes',
      betaLactamAllergy: 'unknown',
    });
    expect(allergic).toEqual(['kidney', 'beta-lactam', 'who-decides']);
  });

  test('CEM-4 drugs that ruin curing are refused by name', () => {
    expect(codes(spacer({ agent: 'rifampicin', gramsPerBatch: 1, weighedAs: 'base' }))).toEqual(['not-in-cement']);
    expect(codes(spacer({ agent: 'no-such-drug', gramsPerBatch: 1, weighedAs: 'base' }))).toEqual(['agent-not-known']);
    expect(codes({ use: 'spacer', batches: 0, drugs: [] })).toEqual(['batches-not-valid']);
  });

  test('CEM-5 a drug is a candidate only when every organism found is sensitive to it', () => {
    const s = (organism: string, agent: string, result: Sensitivity['result']): Sensitivity => ({
      id: organism + agent,
      organism,
      agent,
      result,
    });
    const of = (agent: string, ...list: Sensitivity[]) =>
      candidateAgents(['S. aureus', 'E. coli'], list).find((c) => c.agent.id === agent)!;
    expect(
      of('gentamicin', s('s.  AUREUS', 'gentamicin', 'sensitive'), s('E. coli', 'gentamicin', 'sensitive')).standing,
    ).toBe('candidate');
    expect(of('gentamicin', s('S. aureus', 'gentamicin', 'sensitive'))).toMatchObject({
      standing: 'open',
      notTested: ['E. coli'],
    });
    expect(
      of('vancomycin', s('S. aureus', 'vancomycin', 'sensitive'), s('E. coli', 'vancomycin', 'resistant')),
    ).toMatchObject({ standing: 'against', resistant: ['E. coli'] });
    expect(
      of('colistin', s('S. aureus', 'colistin', 'sensitive'), s('E. coli', 'colistin', 'intermediate')).standing,
    ).toBe('open');
    expect(candidateAgents([], []).every((c) => c.standing === 'open')).toBe(true);
  });

  test('CEM-1 order of entry changes no number', () => {
    const drug = fc.record({
      agent: fc.constantFrom(...CEMENT_AGENTS.map((a) => a.id)),
      gramsPerBatch: fc.double({ min: 0.1, max: 5, noNaN: true }),
      weighedAs: fc.constant('base' as const),
    });
    fc.assert(
      fc.property(fc.array(drug, { minLength: 1, maxLength: 4 }), (drugs) => {
        const a = cementLoad(spacer(...drugs), healthy);
        const b = cementLoad(spacer(...drugs.toReversed()), healthy);
        expect(a.ok && b.ok).toBe(true);
        if (a.ok && b.ok) expect(b.value.drugs.toReversed()).toEqual(a.value.drugs);
      }),
    );
  });
});
