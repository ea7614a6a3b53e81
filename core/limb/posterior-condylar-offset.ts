import { millimetres } from '../landmarks/millimetres.ts';
import { shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Line, signedDistance } from '../plane/line.ts';
import type { Point } from '../plane/point.ts';
import { type Definition, LATERAL } from './definition.ts';

/**
 * Posterior condylar offset: how far the posterior condyle stands behind the extended posterior cortex of the femoral shaft.
 * `posteriorCortex` runs from distal to proximal. Result in the frame's unit, **+ = behind the cortex**.
 * Source: Bellemans 2002; Johal 2012 for the ratio.
 */
export const posteriorCondylarOffset = (condyle: Point<'sagittal'>, posteriorCortex: Line<'sagittal'>): number =>
  signedDistance(condyle, posteriorCortex);

/**
 * Posterior condylar offset ratio: the offset over the distance of the same condyle from the extended anterior cortex.
 * No unit. Refuses a condyle that does not stand behind the anterior cortex.
 */
export function posteriorCondylarOffsetRatio(
  condyle: Point<'sagittal'>,
  posteriorCortex: Line<'sagittal'>,
  anteriorCortex: Line<'sagittal'>,
): Outcome<number> {
  const whole = signedDistance(condyle, anteriorCortex);
  return whole > 0
    ? ok(posteriorCondylarOffset(condyle, posteriorCortex) / whole)
    : cannot({
        code: 'condyle-before-cortex',
        message: 'The posterior condyle lies in front of the anterior cortex.',
        field: 'marks[posterior-condyle]',
        mend: 'Check the direction of the film and the mark of the posterior condyle.',
      });
}

export const POSTERIOR_CONDYLAR_OFFSET: Definition<'sagittal'> = {
  id: 'posterior-condylar-offset',
  label: 'Posterior condylar offset (PCO)',
  frame: 'sagittal',
  unit: 'mm',
  sign: '+ = behind the posterior cortex, 0 = level with it',
  rule: 'LIMB-16',
  source: 'Bellemans 2002; Hanratty 2007',
  normal: '25.9 (21 to 35) before, 26.9 (21 to 34) after replacement, Hanratty 2007',
  needsScale: true,
  variants: () => [
    {
      views: LATERAL,
      inputs: ['posterior-condyle', ...shaftMarks('femoral', 'posterior')],
      formula: (r) => {
        const cortex = shaftLine('femoral', 'posterior', r);
        return cortex.ok ? millimetres(posteriorCondylarOffset(r.at('posterior-condyle'), cortex.value), r) : cortex;
      },
      cautions: [
        {
          code: 'film-offset-imprecise',
          message: 'On films this offset differed from navigation by 4 ± 4 mm before and 6 ± 5 mm after replacement.',
          mend: 'Use the ratio, or CT, where the offset decides.',
        },
      ],
    },
  ],
};

export const POSTERIOR_CONDYLAR_OFFSET_RATIO: Definition<'sagittal'> = {
  id: 'posterior-condylar-offset-ratio',
  label: 'Posterior condylar offset ratio (PCOR)',
  frame: 'sagittal',
  unit: '1',
  sign: 'larger = more offset behind the shaft',
  rule: 'LIMB-17',
  source: 'Johal 2012',
  normal: '0.44 ± 0.02 bone, 0.47 ± 0.02 with cartilage or component, Johal 2012',
  readingSd: 0.02,
  variants: () => [
    {
      views: LATERAL,
      inputs: ['posterior-condyle', ...shaftMarks('femoral', 'posterior'), ...shaftMarks('femoral', 'anterior')],
      formula: (r) =>
        combine(shaftLine('femoral', 'posterior', r), shaftLine('femoral', 'anterior', r), (posterior, anterior) =>
          posteriorCondylarOffsetRatio(r.at('posterior-condyle'), posterior, anterior),
        ),
    },
  ],
};
