import { PLATEAU, plateauDirection, type ShaftAxis, shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { wrap180 } from '../measure/angle.ts';
import { combine } from '../measure/combine.ts';
import { ok, type Warning } from '../measure/outcome.ts';
import { angleFromTo, type Direction } from '../plane/direction.ts';
import { type Definition, LATERAL, type Variant } from './definition.ts';

/**
 * Posterior tibial slope: between the plateau (or tray) and the perpendicular of the tibia's axis on a lateral film.
 * `plateau` runs from back to front, `axis` from distal to proximal. Result in deg, **+ = sloping down at the back,
 * 0 = square to the axis**. Source: Bisicchia 2017 (axes and their bias).
 */
export const posteriorSlope = (plateau: Direction<'sagittal'>, axis: Direction<'sagittal'>): number =>
  wrap180(90 - angleFromTo(plateau, axis));

const biased = (words: string): Warning => ({
  code: 'axis-biased',
  message: `Measured against one cortex: ${words}`,
  mend: 'Mark both cortices at both levels for the anatomic axis.',
});

const AXES: readonly { readonly axis: ShaftAxis; readonly name: string; readonly cautions: readonly Warning[] }[] = [
  { axis: 'both', name: 'axis: both cortices (TPAA)', cautions: [] },
  {
    axis: 'anterior',
    name: 'axis: anterior cortex',
    cautions: [biased('the anterior cortex gives about 3 to 4 degrees more than the anatomic axis (from memory).')],
  },
  {
    axis: 'posterior',
    name: 'axis: posterior cortex (PTC)',
    cautions: [biased('the posterior cortex gives about 3 degrees less than the anatomic axis (Bisicchia 2017).')],
  },
];

export const TIBIAL_SLOPE: Definition<'sagittal'> = {
  id: 'tibial-slope',
  label: 'Posterior tibial slope',
  frame: 'sagittal',
  unit: 'deg',
  sign: '+ = down at the back, 0 = square to the named axis',
  rule: 'LIMB-14',
  source: 'Bisicchia 2017',
  normal: 'TPAA 7.7 ± 1.1 (white), 10.2 ± 3.0 (black), Bisicchia 2017; tray target 0 to 7 by design (from memory)',
  readingSd: 1.5,
  variants: () =>
    AXES.map(
      ({ axis, name, cautions }): Variant<'sagittal'> => ({
        name,
        cautions,
        views: LATERAL,
        inputs: [...PLATEAU, ...shaftMarks('tibial', axis)],
        formula: (r) =>
          combine(plateauDirection(r), shaftLine('tibial', axis, r), (p, line) => ok(posteriorSlope(p, line.along))),
      }),
    ),
};
