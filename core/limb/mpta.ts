import { ANKLE, ankle, type MarkedLine, TIBIAL_SHAFT, TRAY_LINE, tibialLine } from '../landmarks/bony-lines.ts';
import { tibialCentres } from '../landmarks/knee-centre.ts';
import { wrap360 } from '../measure/angle.ts';
import { combine } from '../measure/combine.ts';
import { ok } from '../measure/outcome.ts';
import { angleFromTo, type Direction, direction } from '../plane/direction.ts';
import { ANY_AP, type Definition, LONG_LEG, type Variant } from './definition.ts';

/**
 * Medial proximal tibial angle: between the tibia's axis and the proximal tibial joint line, on the medial side.
 * `axis` points distally, `jointLine` from medial to lateral, both coronal. Result in deg, 0 to 360, 90 = square,
 * **smaller = varus tibia, larger = valgus tibia**. Source: Paley 2002.
 */
export const medialProximalTibialAngle = (axis: Direction<'coronal'>, jointLine: Direction<'coronal'>): number =>
  // From the line's medial direction, counter-clockwise, to the axis.
  wrap360(angleFromTo(jointLine, axis) - 180);

const SHORT = {
  code: 'short-film',
  message:
    'Measured against the shaft seen on a short film; the tibial shaft runs within about 2 degrees of the mechanical axis.',
  mend: 'Measure on a long-leg film.',
} as const;

function variants(
  state: 'native' | 'replaced',
  line: MarkedLine,
  of: (a: number) => number,
): readonly Variant<'coronal'>[] {
  const mechanical = tibialCentres(state).map(
    (t): Variant<'coronal'> => ({
      name: t.name,
      views: LONG_LEG,
      inputs: [...new Set([...t.inputs, ...ANKLE, ...line.inputs])],
      formula: (r) => {
        const knee = t.centre(r);
        if (!knee.ok) return knee;
        return combine(direction(knee.value, ankle(r)), line.direction(r), (axis, l) =>
          ok(of(medialProximalTibialAngle(axis, l))),
        );
      },
    }),
  );
  const byShaft: Variant<'coronal'> = {
    name: 'axis: tibial shaft',
    views: ANY_AP,
    inputs: [...TIBIAL_SHAFT.inputs, ...line.inputs],
    formula: (r) =>
      combine(TIBIAL_SHAFT.direction(r), line.direction(r), (up, l) =>
        ok(of(medialProximalTibialAngle({ frame: up.frame, x: -up.x, y: -up.y }, l))),
      ),
    cautions: [SHORT],
  };
  return [...mechanical, byShaft];
}

export const MPTA: Definition<'coronal'> = {
  id: 'mpta',
  label: 'Medial proximal tibial angle (MPTA)',
  frame: 'coronal',
  unit: 'deg',
  sign: '90 = square to the mechanical axis, smaller = varus, larger = valgus',
  rule: 'LIMB-4',
  source: 'Paley 2002',
  normal: '87 (85 to 90), Paley; 86.1 ± 2.8 on CT, Jamali 2017',
  readingSd: 0.6,
  posture: ['rotation'],
  variants: (state) => variants(state, tibialLine(state), (a) => a),
};

export const TRAY_CORONAL: Definition<'coronal'> = {
  id: 'tray-coronal',
  label: 'Tibial tray, coronal angle',
  frame: 'coronal',
  unit: 'deg',
  sign: '+ = valgus, 0 = square to the tibial axis, - = varus',
  rule: 'LIMB-12',
  source: 'Ewald 1989 (film angles)',
  normal: 'mechanical target 0 ± 3 (from memory)',
  readingSd: 0.6,
  posture: ['rotation'],
  variants: (state) => (state === 'replaced' ? variants(state, TRAY_LINE, (a) => a - 90) : []),
};
