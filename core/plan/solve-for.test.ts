import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { makePlan } from './make-plan.ts';

const catalogue = demoCatalogue();
const planWith = (weights: WeightTable) => {
  const file = squareKnee();
  return makePlan({ ...file, settings: { ...file.settings, weights } }, catalogue);
};

describe('weights of a practice', () => {
  test('GAP-9 a table with a fault is named, and no construct is proposed from it', () => {
    const plan = planWith({ version: 'ours', weights: DEFAULT_WEIGHTS.weights.filter((w) => w.id !== 'stem') });
    expect(plan.construct.kind).toBe('not-attempted');
    const named = plan.missing.find((m) => m.field === 'settings.weights.stem');
    expect(named?.what).toContain('stem is missing');
  });

  test('GAP-9 a table from before a term was known still plans, and the plan says whose default it takes', () => {
    const older = { version: '1.0', weights: DEFAULT_WEIGHTS.weights.filter((w) => w.id !== 'arc') };
    const plan = planWith(older);
    expect(plan.construct).toEqual(planWith(DEFAULT_WEIGHTS).construct);
    expect(plan.missing.find((m) => m.field === 'settings.weights.arc')?.what).toContain('older than the weight arc');
  });
});
