import { ANKLE, ankle, HIP, hip, tibialLine } from '../landmarks/bony-lines.ts';
import { tibialCentres } from '../landmarks/knee-centre.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { intersection, lineThrough, signedDistance } from '../plane/line.ts';
import { between, dot, type Point } from '../plane/point.ts';
import { type Definition, LONG_LEG } from './definition.ts';

export interface WeightBearing {
  readonly hip: Point<'coronal'>;
  readonly ankle: Point<'coronal'>;
}

/**
 * Mechanical axis deviation: perpendicular distance of the knee centre from the line hip to ankle, in the frame's
 * unit. **+ = the line passes medial to the knee centre, 0 = through it.** Source: Paley 2002. Refuses hip and ankle in one place.
 */
export function axisDeviation(line: WeightBearing, knee: Point<'coronal'>): Outcome<number> {
  // Directed distally, lateral (x +) lies on the line's left.
  const l = lineThrough(line.hip, line.ankle);
  return l.ok ? ok(signedDistance(knee, l.value)) : l;
}

/**
 * Weight-bearing line ratio: where the line hip to ankle crosses the plateau, in per cent of its width.
 * **0 = medial edge, 100 = lateral edge**; outside when the line passes beside the knee. Refuses an edge pair in one place.
 */
export const weightBearingRatio = (
  line: WeightBearing,
  medialEdge: Point<'coronal'>,
  lateralEdge: Point<'coronal'>,
): Outcome<number> =>
  combine(lineThrough(line.hip, line.ankle), lineThrough(medialEdge, lateralEdge), (load, plateau) => {
    const at = intersection(plateau, load);
    if (!at.ok) return at;
    const width = between(medialEdge, lateralEdge);
    const whole = dot(width, width);
    return whole > 0
      ? ok((100 * dot(between(medialEdge, at.value), width)) / whole)
      : cannot({ code: 'line-has-no-length', message: 'The plateau has no width.' });
  });

export const MECHANICAL_AXIS_DEVIATION: Definition<'coronal'> = {
  id: 'mad',
  label: 'Mechanical axis deviation (MAD)',
  frame: 'coronal',
  unit: 'mm',
  sign: '+ = weight-bearing line medial to the knee centre, 0 = through it',
  rule: 'LIMB-8',
  source: 'Paley 2002',
  normal: '8 ± 7 (1 to 15) medial, Paley',
  needsScale: true,
  posture: ['load', 'rotation'],
  variants: (state) =>
    tibialCentres(state).map((t) => ({
      name: t.name,
      views: LONG_LEG,
      inputs: [...new Set([HIP, ...ANKLE, ...t.inputs])],
      formula: (r) => {
        const knee = t.centre(r);
        if (!knee.ok) return knee;
        const d = axisDeviation({ hip: hip(r), ankle: ankle(r) }, knee.value);
        return d.ok ? millimetres(d.value, r) : d;
      },
    })),
};

export const WEIGHT_BEARING_RATIO: Definition<'coronal'> = {
  id: 'weight-bearing-ratio',
  label: 'Weight-bearing line ratio',
  frame: 'coronal',
  unit: '%',
  sign: '0 = medial edge of the plateau, 100 = lateral edge',
  rule: 'LIMB-9',
  source: 'definition as in Knee Surg Relat Res, uid 1154, figure 1',
  normal: 'about 41 to 50 (from memory)',
  posture: ['load', 'rotation'],
  variants: (state) => {
    const edges =
      state === 'replaced' ? tibialLine(state).inputs : (['tibial-cortex-medial', 'tibial-cortex-lateral'] as const);
    const [medial, lateral] = edges as readonly [(typeof edges)[number], (typeof edges)[number]];
    return [
      {
        name: state === 'replaced' ? 'edges of the tray' : 'outer cortices',
        views: LONG_LEG,
        inputs: [HIP, ...ANKLE, ...edges],
        formula: (r) => weightBearingRatio({ hip: hip(r), ankle: ankle(r) }, r.at(medial), r.at(lateral)),
      },
    ];
  },
};
