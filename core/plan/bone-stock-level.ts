import { millimetres, NO_SCALE } from '../landmarks/millimetres.ts';
import type { Definition } from '../limb/definition.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { between, dot } from '../plane/point.ts';
import { faceLevel } from './bone-stock-planes.ts';
import { CONDYLES, height, insertOver, LINES, TRAY, zero } from './bone-supports.ts';
import { femoralAxes, type TargetTilt, tibialAxes, upOf } from './target-axes.ts';

/** What the plane's level is counted with: the target's tilt and the present component's thickness, mm. */
export interface FaceAsked {
  readonly tilt: TargetTilt;
  readonly thicknessMm: number;
}

/** A formula in mm, refused without a scale: a thickness in mm has no place on such a film. */
const scaled = (
  r: { readonly mmPerUnit: number | null },
  go: (mmPerUnit: number) => Outcome<number>,
): Outcome<number> => (r.mmPerUnit === null ? cannot(NO_SCALE) : go(r.mmPerUnit));

/**
 * Level of the femoral resection plane (PLAN-21) above the present joint line, counted as the bone marks are (PLAN-11), mm, **+ = proximal**.
 * Example: a component 9 mm thick, square to the target: 9.
 */
export const femoralPlaneLevel = ({ tilt, thicknessMm }: FaceAsked): Definition<'coronal'> => ({
  ...LINES,
  id: 'femoral-plane',
  label: 'Femoral resection plane above the present joint line',
  sign: '+ = proximal of the present joint line',
  rule: 'PLAN-21',
  variants: () =>
    femoralAxes(tilt).map((option) =>
      height(option, CONDYLES, (axis, r) =>
        scaled(r, (mm) => {
          const level = faceLevel.femur(upOf(option, axis), r, thicknessMm / mm);
          return level.ok ? millimetres(level.value, r) : level;
        }),
      ),
    ),
});

/**
 * Level of the tibial resection plane (PLAN-21) below the present joint line, counted as the bone marks are (PLAN-12), mm, **+ = distal**;
 * `by` tells what stands for the bearing surface: the insert on the tray or, while its thickness is unknown, the loaded femoral tangent.
 */
export const tibialPlaneLevel = (
  { tilt, thicknessMm }: FaceAsked,
  by: 'insert' | 'contact',
): Definition<'coronal'> => ({
  ...LINES,
  id: 'tibial-plane',
  label: 'Tibial resection plane below the present joint line',
  sign: '+ = distal of the present joint line',
  rule: 'PLAN-21',
  variants: () =>
    tibialAxes(tilt).map((option) => ({
      ...height(option, [...TRAY, ...CONDYLES], (axis, r) =>
        scaled(r, (mm) => {
          const up = upOf(option, axis);
          const bearing =
            by === 'insert'
              ? insertOver(axis, r)
              : combine(zero(axis, TRAY, r), zero(axis, CONDYLES, r), (tray, femur) =>
                  ok(dot(between(tray, femur), up)),
                );
          return combine(bearing, faceLevel.tibia(up, r, thicknessMm / mm), (b, level) => millimetres(b + level, r));
        }),
      ),
      ...(by === 'insert' ? { needsInsert: true } : {}),
    })),
});
