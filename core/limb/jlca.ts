import { FEMORAL_LINE, tibialLine } from '../landmarks/bony-lines.ts';
import { combine } from '../measure/combine.ts';
import { ok } from '../measure/outcome.ts';
import { angleFromTo, type Direction } from '../plane/direction.ts';
import { ANY_AP, type Definition } from './definition.ts';

/**
 * Joint line convergence angle: between the femoral and the tibial joint line, each from medial to lateral, coronal.
 * Result in deg, **+ = opens laterally (apex medial, adds varus), 0 = parallel**. Some authors use the opposite sign
 * (Moser 2019). Source: Paley 2002. The two directions cannot be degenerate.
 */
export const jointLineConvergence = (femoral: Direction<'coronal'>, tibial: Direction<'coronal'>): number =>
  angleFromTo(tibial, femoral);

export const JLCA: Definition<'coronal'> = {
  id: 'jlca',
  label: 'Joint line convergence angle (JLCA)',
  frame: 'coronal',
  unit: 'deg',
  sign: '+ = opens laterally, 0 = parallel, - = opens medially',
  rule: 'LIMB-5',
  source: 'Paley 2002',
  normal: '0 to 2, Paley; 0.5 ± 1.0 (men) to 1.9 ± 1.4 (women), Moser 2019',
  readingSd: 0.8,
  posture: ['load'],
  variants: (state) => {
    const tibia = tibialLine(state);
    return [
      {
        views: ANY_AP,
        inputs: [...FEMORAL_LINE.inputs, ...tibia.inputs],
        formula: (r) =>
          combine(FEMORAL_LINE.direction(r), tibia.direction(r), (f, t) => ok(jointLineConvergence(f, t))),
      },
    ];
  },
};
