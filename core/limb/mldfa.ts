import { FEMORAL_LINE, FEMORAL_SHAFT, HIP, hip } from '../landmarks/bony-lines.ts';
import { femoralCentres } from '../landmarks/knee-centre.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { angleFromTo, type Direction, direction } from '../plane/direction.ts';
import { ANY_AP, type Definition, LONG_LEG, type Variant } from './definition.ts';

/**
 * Lateral distal femoral angle: between an axis of the femur and the distal femoral joint line, on the lateral side. With the
 * mechanical axis it is the mLDFA, with the anatomic axis the aLDFA.
 * `axis` points proximally, `jointLine` from medial to lateral, both coronal. Result in deg, 90 = square,
 * **smaller = valgus femur, larger = varus femur**. Source: Paley 2002. The two directions cannot be degenerate.
 */
export const lateralDistalFemoralAngle = (axis: Direction<'coronal'>, jointLine: Direction<'coronal'>): number =>
  angleFromTo(jointLine, axis);

const mechanical = (state: 'native' | 'replaced', of: (angle: number) => number): readonly Variant<'coronal'>[] =>
  femoralCentres(state).map((f) => ({
    name: f.name,
    views: LONG_LEG,
    inputs: [...new Set([HIP, ...f.inputs, ...FEMORAL_LINE.inputs])],
    formula: (r) => {
      const knee = f.centre(r);
      if (!knee.ok) return knee;
      return combine(
        direction(knee.value, hip(r)),
        FEMORAL_LINE.direction(r),
        (axis, line): Outcome<number> => ok(of(lateralDistalFemoralAngle(axis, line))),
      );
    },
  }));

export const MLDFA: Definition<'coronal'> = {
  id: 'mldfa',
  label: 'Mechanical lateral distal femoral angle (mLDFA)',
  frame: 'coronal',
  unit: 'deg',
  sign: '90 = square to the mechanical axis, smaller = valgus, larger = varus',
  rule: 'LIMB-3',
  source: 'Paley 2002',
  normal: '88 (85 to 90), Paley; 85.6 ± 2.3 on CT, Jamali 2017',
  readingSd: 0.6,
  posture: ['rotation'],
  variants: (state) => mechanical(state, (a) => a),
};

export const FEMORAL_COMPONENT_CORONAL: Definition<'coronal'> = {
  id: 'femoral-component-coronal',
  label: 'Femoral component, coronal angle',
  frame: 'coronal',
  unit: 'deg',
  sign: '+ = valgus, 0 = square to the mechanical axis, - = varus',
  rule: 'LIMB-12',
  source: 'Ewald 1989 (film angles), to the mechanical axis',
  normal: 'mechanical target 0 ± 3 (from memory)',
  readingSd: 0.6,
  posture: ['rotation'],
  variants: (state) => (state === 'replaced' ? mechanical(state, (a) => 90 - a) : []),
};

export const ALDFA: Definition<'coronal'> = {
  id: 'aldfa',
  label: 'Anatomic lateral distal femoral angle (aLDFA)',
  frame: 'coronal',
  unit: 'deg',
  sign: 'on the lateral side of the shaft axis; smaller = valgus, larger = varus',
  rule: 'LIMB-6',
  source: 'Paley 2002',
  normal: '81 (79 to 83), Paley; 80.2 ± 2.2 on CT, Jamali 2017',
  readingSd: 0.6,
  posture: ['rotation'],
  variants: () => [
    {
      name: 'axis: middle of the shaft at two levels',
      views: ANY_AP,
      inputs: [...FEMORAL_SHAFT.inputs, ...FEMORAL_LINE.inputs],
      formula: (r) =>
        combine(FEMORAL_SHAFT.direction(r), FEMORAL_LINE.direction(r), (axis, line) =>
          ok(lateralDistalFemoralAngle(axis, line)),
        ),
    },
  ],
};

/** Valgus cut angle (AMA): from the anatomic to the mechanical axis of the femur; mLDFA - aLDFA. + = the usual way, the shaft leans laterally. */
export const VALGUS_CUT_ANGLE: Definition<'coronal'> = {
  id: 'valgus-cut-angle',
  label: 'Valgus cut angle (anatomic to mechanical axis, AMA)',
  frame: 'coronal',
  unit: 'deg',
  sign: '+ = shaft leans laterally from the mechanical axis (usual), 0 = both axes alike',
  rule: 'LIMB-7',
  source: 'mLDFA = aLDFA + AMA; Jamali 2017',
  normal: '5.4 ± 0.7 on CT, Jamali 2017; 7 ± 2, Paley',
  readingSd: 0.6,
  posture: ['rotation'],
  variants: (state) =>
    femoralCentres(state).map((f) => ({
      name: f.name,
      views: LONG_LEG,
      inputs: [...new Set([HIP, ...f.inputs, ...FEMORAL_SHAFT.inputs])],
      formula: (r) => {
        const knee = f.centre(r);
        if (!knee.ok) return knee;
        return combine(direction(knee.value, hip(r)), FEMORAL_SHAFT.direction(r), (mech, shaft) =>
          ok(angleFromTo(shaft, mech)),
        );
      },
    })),
};
