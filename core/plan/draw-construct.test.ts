import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import { makePlan } from './make-plan.ts';

const whole = demoCatalogue();
const bare: Catalogue = {
  ...whole,
  femurs: whole.femurs.map((f) => ({ ...f, outlines: { coronal: [], sagittal: [] } })),
  trays: whole.trays.map((t) => ({ ...t, outlines: { coronal: [], sagittal: [] } })),
};

describe('components on the films', () => {
  test('a system without outlines is drawn as boxes: the same components on the same films', () => {
    const drawn = (catalogue: Catalogue) =>
      makePlan(squareKnee(), catalogue).drawings.flatMap((d) =>
        d.layers.filter((l) => l.kind === 'component' && l.belongs === 'plan').map((l) => l.label),
      );
    const names = new Set(drawn(whole));
    expect(names.size).toBeGreaterThan(1);
    expect(new Set(drawn(bare))).toEqual(names);
  });

  test('a distal femoral component is drawn as long as it is, its stem from the cut', () => {
    const file = squareKnee();
    const lost = {
      ...file,
      bone: { ...file.bone, femurClass: '3' as const },
      examination: { ...file.examination, mcl: 'absent' as const },
    };
    // Only a distal femoral component can be had.
    const system: Catalogue = { ...whole, cones: [], sleeves: [] };
    const plan = makePlan(lost, system);
    if (plan.construct.kind !== 'solved') throw new Error('no construct');
    const { construct } = plan.construct.answer.best;
    expect(construct.femoralSegmentMm).toBe(65);
    const layers = plan.drawings.flatMap((d) => d.layers);
    expect(layers.some((l) => l.id === construct.femur && l.kind === 'component')).toBe(true);
    expect(layers.some((l) => l.id === `${construct.femoralStem}:femur`)).toBe(true);
  });
});
