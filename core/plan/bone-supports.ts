import { FEMORAL_LINE, TRAY_LINE } from '../landmarks/bony-lines.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { insertThickness, millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import type { Compartment } from '../landmarks/side.ts';
import type { Definition, Variant } from '../limb/definition.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { normalOf } from '../plane/direction.ts';
import { intersection, type Line, lineThrough } from '../plane/line.ts';
import { between, distance, dot, type Point, point } from '../plane/point.ts';
import { type AxisOption, femoralAxes, type TargetTilt, tibialAxes, upOf } from './target-axes.ts';

type R = Reading<'coronal'>;

export const CONDYLES = ['medial-condyle-distal', 'lateral-condyle-distal'] as const;
export const TRAY = ['tray-medial-edge', 'tray-lateral-edge'] as const;

export const LINES = {
  frame: 'coronal',
  unit: 'mm',
  source: 'derived in docs/rules/plan.md',
  needsScale: true,
  keepsCauses: true,
} as const;

/** Where an axis meets the line through two marks: the zero from which heights are counted, as in the joint-line estimate. */
export const zero = (axis: Line<'coronal'>, [medial, lateral]: readonly [LandmarkId, LandmarkId], r: R) =>
  combine(lineThrough(r.at(medial), r.at(lateral)), ok(axis), intersection);

/**
 * How much bone stands under the present femoral component (PLAN-11): height of the marked bone surface above the present joint line (the distal
 * tangent where the axis meets it), along the normal of the target joint line, mm, **+ = proximal**.
 */
export const femoralSupport = (side: Compartment, tilt: TargetTilt): Definition<'coronal'> => {
  const bone = `femoral-bone-distal-${side}` as const;
  return {
    ...LINES,
    id: `femoral-support-${side}`,
    label: `Femoral bone above the present joint line, ${side}`,
    sign: '+ = proximal of the present joint line',
    rule: 'PLAN-11',
    variants: () =>
      femoralAxes(tilt).map((option) =>
        height(option, [bone, ...CONDYLES], (axis, r) => {
          const at = zero(axis, CONDYLES, r);
          return at.ok ? millimetres(dot(between(at.value, r.at(bone)), upOf(option, axis)), r) : at;
        }),
      ),
  };
};

/**
 * How far below the present joint line the tibial bone starts (PLAN-12): along the normal of the target joint line, mm, **+ = distal**;
 * from the tray's upper face with the insert on it.
 */
export const tibialSupport = (side: Compartment, tilt: TargetTilt): Definition<'coronal'> => {
  const bone = `tibial-bone-${side}` as const;
  return {
    ...LINES,
    id: `tibial-support-${side}`,
    label: `Tibial bone below the present joint line, ${side}`,
    sign: '+ = distal of the present joint line',
    rule: 'PLAN-12',
    variants: () =>
      tibialAxes(tilt).map((option) => ({
        ...height(option, [bone, ...TRAY], (axis, r) =>
          combine(zero(axis, TRAY, r), insertOver(axis, r), (at, insert) =>
            millimetres(dot(between(r.at(bone), at), upOf(option, axis)) + insert, r),
          ),
        ),
        needsInsert: true,
      })),
  };
};

/** The same while the insert is unknown: from the femoral tangent, which load brings into contact with the bearing surface. */
export const tibialSupportByContact = (side: Compartment, tilt: TargetTilt): Definition<'coronal'> => {
  const bone = `tibial-bone-${side}` as const;
  return {
    ...tibialSupport(side, tilt),
    posture: ['load'],
    variants: () =>
      tibialAxes(tilt).map((option) =>
        height(option, [bone, ...CONDYLES], (axis, r) => {
          const at = zero(axis, CONDYLES, r);
          return at.ok ? millimetres(dot(between(r.at(bone), at.value), upOf(option, axis)), r) : at;
        }),
      ),
  };
};

/**
 * Height of the present tibial surface at the medial contact over its target line through the middle of the knee (PLAN-13), mm,
 * **- = medial side low (varus), 0 = square as it should be**; the lateral contact stands as far the other way.
 * Contacts: half the distance of the condyles' lowest points from the middle.
 * Example: a tray 5 degrees in varus, contacts 44 mm apart: -22 sin 5 = -1.92 mm.
 */
export const trayAtMedialContact = (tilt: TargetTilt): Definition<'coronal'> => ({
  ...LINES,
  id: 'tray-at-medial-contact',
  label: 'Tilt of the present tray at the medial contact',
  sign: '- = medial side low (varus), 0 = square to the target',
  rule: 'PLAN-13',
  variants: () =>
    tibialAxes(tilt).map((option) =>
      height(option, [...CONDYLES, ...TRAY], (axis, r) => {
        const tray = toMedialContact(r);
        return tray.ok ? millimetres(dot(tray.value, upOf(option, axis)), r) : tray;
      }),
    ),
});

/**
 * What squaring both surfaces to their targets takes from the medial side and gives to the lateral one (PLAN-13): height of the tibial
 * surface minus that of the femoral one at the medial contact, mm, **- = the medial side tightens, + = it opens**.
 */
export const tiltAtMedialContact = (tilt: TargetTilt): Definition<'coronal'> => ({
  ...LINES,
  id: 'tilt-at-medial-contact',
  label: 'Tilt of both present surfaces at the medial contact',
  sign: '- = squaring tightens the medial side, + = it opens it',
  rule: 'PLAN-13',
  variants: () =>
    femoralAxes(tilt).flatMap((f) =>
      tibialAxes(tilt).map(
        (t): Variant<'coronal'> => ({
          name: `${f.name}; ${t.name}`,
          views: f.views.filter((v) => t.views.includes(v)),
          inputs: [...new Set([...CONDYLES, ...TRAY, ...f.inputs, ...t.inputs])],
          formula: (r) =>
            combine(f.axis(r), t.axis(r), (femur, tibia) => {
              const tray = toMedialContact(r);
              if (!tray.ok) return tray;
              const condyle = between(r.at(CONDYLES[1]), r.at(CONDYLES[0]));
              return millimetres(dot(tray.value, upOf(t, tibia)) - dot(condyle, upOf(f, femur)) / 2, r);
            }),
        }),
      ),
    ),
});

/** One way to have a height: along one axis, from some marks. */
export const height = (
  option: AxisOption,
  marks: readonly LandmarkId[],
  formula: (axis: Line<'coronal'>, r: R) => Outcome<number>,
): Variant<'coronal'> => ({
  name: option.name,
  views: option.views,
  inputs: [...new Set([...marks, ...option.inputs])],
  formula: (r) => {
    const axis = option.axis(r);
    return axis.ok ? formula(axis.value, r) : axis;
  },
});

/** The insert stands on the tray's normal; along the axis it is that much taller. Frame's unit. */
export const insertOver = (axis: Line<'coronal'>, r: R): Outcome<number> =>
  combine(insertThickness(r), TRAY_LINE.direction(r), (insert, along) =>
    ok(insert / Math.max(0.5, dot(normalOf(along), axis.along))),
  );

/** From the middle of the tray's line to its medial contact. */
export const toMedialContact = (r: R): Outcome<Point<'coronal'>> =>
  combine(TRAY_LINE.direction(r), FEMORAL_LINE.direction(r), (along) => {
    const lever = distance(r.at(CONDYLES[0]), r.at(CONDYLES[1])) / 2;
    return ok(point('coronal', -along.x * lever, -along.y * lever));
  });
