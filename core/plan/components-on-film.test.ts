import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { calibrateFilms } from './calibrate-films.ts';
import { componentsOnFilm, inFrame, onFilm, originOf } from './components-on-film.ts';
import { evidenceFor, makePlan } from './make-plan.ts';

const file = squareKnee();
const catalogue = demoCatalogue();
const plan = makePlan(file, catalogue);
const all = componentsOnFilm({ file, evidence: evidenceFor(file, calibrateFilms(file)), plan, catalogue });

describe('components on the film', () => {
  test('GAP-44 each lies where it is drawn: the lowest point of the femur at J, to a hundredth of a millimetre', () => {
    if (plan.construct.kind !== 'solved') throw new Error('no construct');
    const { construct } = plan.construct.answer.best;
    expect(new Set(all.map((c) => `${c.bone} ${c.view}`)).size).toBeGreaterThan(1);
    for (const on of all.filter((c) => c.bone === 'femur')) {
      const layers = plan.drawings.find((d) => d.film === on.film)?.layers ?? [];
      const outline = layers.filter((l) => l.id === construct.femur).flatMap((l) => l.points);
      const lowest = Math.min(...outline.map((p) => inFrame(on, p).up));
      expect(lowest).toBeCloseTo(originOf(on, construct)[1], 2);
      const back = Math.min(...outline.map((p) => inFrame(on, p).across));
      if (on.view === 'sagittal') expect(back).toBeCloseTo(construct.femurAnteriorMm, 1);
    }
  });

  test('GAP-44 to the film and back is the same place', () => {
    for (const on of all) {
      const there = inFrame(on, onFilm(on, 3.25, -7.5));
      expect(there.across).toBeCloseTo(3.25, 9);
      expect(there.up).toBeCloseTo(-7.5, 9);
    }
  });

  test('GAP-44 without a catalogue nothing is to be moved', () => {
    const evidence = evidenceFor(file, calibrateFilms(file));
    expect(componentsOnFilm({ file, evidence, plan, catalogue: null })).toEqual([]);
  });
});
