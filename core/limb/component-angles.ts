import { FEMORAL_LINE, FEMORAL_SHAFT, type MarkedLine, TIBIAL_SHAFT, TRAY_LINE } from '../landmarks/bony-lines.ts';
import { PLATEAU, plateauDirection, shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import type { Direction } from '../plane/direction.ts';
import { ANY_AP, type Definition, LATERAL, type Variant } from './definition.ts';
import { componentFlexion, FEMORAL_FACE, faceDirection } from './femoral-flexion.ts';
import { lateralDistalFemoralAngle } from './mldfa.ts';
import { medialProximalTibialAngle } from './mpta.ts';
import { posteriorSlope } from './tibial-slope.ts';

/**
 * Femoral film angle alpha: between the shaft of the femur and the distal tangent of its component, on the medial side of an AP film.
 * `axis` points proximally, `line` from medial to lateral. Deg, 90 = square, **larger = valgus**. Source: Ewald 1989.
 */
export const alpha = (axis: Direction<'coronal'>, line: Direction<'coronal'>): number =>
  180 - lateralDistalFemoralAngle(axis, line);

/**
 * Tibial film angle beta: between the shaft of the tibia and its tray, on the medial side of an AP film. `axis` points proximally, `line`
 * from medial to lateral. Deg, 90 = square, **larger = valgus**. Source: Ewald 1989.
 */
export const beta = (axis: Direction<'coronal'>, line: Direction<'coronal'>): number =>
  medialProximalTibialAngle({ frame: axis.frame, x: -axis.x, y: -axis.y }, line);

/** Valgus of both components together against both shafts: alpha + beta - 180, deg, + = valgus. Source: Ewald 1989 (from memory). */
export const totalValgus = (alphaDeg: number, betaDeg: number): number => alphaDeg + betaDeg - 180;

/**
 * Tibial film angle delta: between the tray and the tibia's axis behind it on a lateral film. Deg, 90 = square, **smaller = sloping down at the
 * back**: 90 - slope. `tray` runs from back to front, `axis` proximally. Source: Ewald 1989.
 */
export const delta = (tray: Direction<'sagittal'>, axis: Direction<'sagittal'>): number =>
  90 - posteriorSlope(tray, axis);

const shared = { unit: 'deg' as const, rule: 'LIMB-24', source: 'Ewald 1989' };
const coronal = { ...shared, frame: 'coronal' as const, readingSd: 0.6, posture: ['rotation'] as const };
const sagittal = { ...shared, frame: 'sagittal' as const, readingSd: 1.5 };

const against = (
  shaft: MarkedLine,
  line: MarkedLine,
  of: (axis: Direction<'coronal'>, line: Direction<'coronal'>) => number,
): Variant<'coronal'> => ({
  name: 'axis: middle of the shaft at two levels',
  views: ANY_AP,
  inputs: [...shaft.inputs, ...line.inputs],
  formula: (r): Outcome<number> => combine(shaft.direction(r), line.direction(r), (a, l) => ok(of(a, l))),
});

const ALPHA_BY_SHAFT = against(FEMORAL_SHAFT, FEMORAL_LINE, alpha);
const BETA_BY_SHAFT = against(TIBIAL_SHAFT, TRAY_LINE, beta);

const WITH_BOTH: Variant<'coronal'> = {
  name: 'axes: middles of both shafts at two levels',
  views: ANY_AP,
  inputs: [...ALPHA_BY_SHAFT.inputs, ...BETA_BY_SHAFT.inputs],
  formula: (r) => combine(ALPHA_BY_SHAFT.formula(r), BETA_BY_SHAFT.formula(r), (a, b) => ok(totalValgus(a, b))),
};

const replaced =
  <T>(variants: readonly T[]) =>
  (state: 'native' | 'replaced'): readonly T[] =>
    state === 'replaced' ? variants : [];

/** The film angles of the component position on AP films, both against the shafts. */
export const COMPONENT_ANGLES_AP: readonly Definition<'coronal'>[] = [
  {
    ...coronal,
    id: 'component-alpha',
    label: 'Femoral component on AP, film angle alpha',
    sign: 'medial side against the shaft: 90 = square, larger = valgus',
    normal: 'about 95 to 97 for a component square to the mechanical axis (from memory)',
    variants: replaced([ALPHA_BY_SHAFT]),
  },
  {
    ...coronal,
    id: 'component-beta',
    label: 'Tibial component on AP, film angle beta',
    sign: 'medial side against the shaft: 90 = square, larger = valgus',
    normal: 'about 90 (from memory)',
    variants: replaced([BETA_BY_SHAFT]),
  },
  {
    ...coronal,
    id: 'component-total-valgus',
    label: 'Valgus of both components together',
    sign: '+ = valgus between the shafts, 0 = none: alpha + beta - 180',
    normal: 'about 5 to 7 with both square to the mechanical axes (from memory)',
    readingSd: 0.85,
    variants: replaced([WITH_BOTH]),
  },
];

/** The same on lateral films. */
export const COMPONENT_ANGLES_LATERAL: readonly Definition<'sagittal'>[] = [
  {
    ...sagittal,
    id: 'component-gamma',
    label: 'Femoral component on lateral, film angle gamma',
    sign: '+ = flexed, 0 = square to the shaft, - = extended',
    normal: '0 to 3 (n 113, BMC Musculoskelet Disord 2023)',
    variants: replaced<Variant<'sagittal'>>([
      {
        name: 'axis: both cortices of the distal femur',
        views: LATERAL,
        inputs: [...FEMORAL_FACE, ...shaftMarks('femoral', 'both')],
        formula: (r) =>
          combine(faceDirection(r), shaftLine('femoral', 'both', r), (face, line) =>
            ok(componentFlexion(face, line.along)),
          ),
      },
    ]),
  },
  {
    ...sagittal,
    id: 'component-delta',
    label: 'Tibial component on lateral, film angle delta',
    sign: 'behind the shaft: 90 = square, smaller = sloping down at the back',
    normal: '83 to 90 by design of the tray (from memory)',
    variants: replaced<Variant<'sagittal'>>([
      {
        name: 'axis: both cortices of the tibia',
        views: LATERAL,
        inputs: [...PLATEAU, ...shaftMarks('tibial', 'both')],
        formula: (r) =>
          combine(plateauDirection(r), shaftLine('tibial', 'both', r), (tray, line) => ok(delta(tray, line.along))),
      },
    ]),
  },
];
