import { ANKLE, ankle, FEMORAL_SHAFT, HIP, hip, TIBIAL_SHAFT } from '../landmarks/bony-lines.ts';
import { type CentreOption, CONDYLE_MIDDLE, femoralCentres, tibialCentres } from '../landmarks/knee-centre.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Reading } from '../landmarks/reading.ts';
import type { View } from '../landmarks/view.ts';
import { ANY_AP, LONG_LEG } from '../limb/definition.ts';
import { toRad } from '../measure/angle.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, direction } from '../plane/direction.ts';
import type { Line } from '../plane/line.ts';
import type { Point } from '../plane/point.ts';

type R = Reading<'coronal'>;

/** Tilt of the target from square to the mechanical axes, deg, + = valgus; and the valgus cut angle that turns a shaft into its mechanical axis. */
export interface TargetTilt {
  readonly femurDeg: number;
  readonly tibiaDeg: number;
  readonly valgusCutDeg: number;
}

/** A way to find where a bone's axis runs and, from it, which way is up for its target joint line. */
export interface AxisOption {
  readonly name: string;
  readonly views: readonly View[];
  readonly inputs: readonly LandmarkId[];
  /** The axis as a line through the knee, pointing proximally. */
  readonly axis: (r: R) => Outcome<Line<'coronal'>>;
  /** From the axis to the normal of the target joint line, deg counter-clockwise (x lateral, y proximal). */
  readonly turnDeg: number;
}

/** A direction turned counter-clockwise (x lateral, y proximal), deg. */
export function turned(d: Direction<'coronal'>, deg: number): Direction<'coronal'> {
  const [c, s] = [Math.cos(toRad(deg)), Math.sin(toRad(deg))];
  return { frame: d.frame, x: d.x * c - d.y * s, y: d.x * s + d.y * c };
}

/** Normal of the target joint line, pointing proximally. */
export const upOf = (option: AxisOption, axis: Line<'coronal'>): Direction<'coronal'> =>
  turned(axis.along, option.turnDeg);

/**
 * Femur: the mechanical axis of a long-leg film or, on a film of the knee, the shaft turned by the valgus cut angle (the
 * shaft leans laterally). A valgus target lifts the lateral end of the joint line: its normal turns counter-clockwise.
 */
export const femoralAxes = (tilt: TargetTilt): readonly AxisOption[] => [
  ...femoralCentres('replaced').map((f) => option(f, HIP_AXIS, tilt.femurDeg)),
  ...[...femoralCentres('replaced'), CONDYLE_MIDDLE].map((f) =>
    option(f, shaftTurned(tilt.valgusCutDeg), tilt.femurDeg),
  ),
];

/** Tibia: the mechanical axis of a long-leg film, else the shaft. A valgus target lowers the lateral end. */
export const tibialAxes = (tilt: TargetTilt): readonly AxisOption[] => [
  ...tibialCentres('replaced').map((t) => option(t, ANKLE_AXIS, -tilt.tibiaDeg)),
  ...tibialCentres('replaced').map((t) => option(t, TIBIAL_SHAFT_AXIS, -tilt.tibiaDeg)),
];

interface AxisThrough {
  readonly name: string;
  readonly views: readonly View[];
  readonly inputs: readonly LandmarkId[];
  readonly along: (centre: Point<'coronal'>, r: R) => Outcome<Direction<'coronal'>>;
}

const HIP_AXIS: AxisThrough = {
  name: 'mechanical axis',
  views: LONG_LEG,
  inputs: [HIP],
  along: (centre, r) => direction(centre, hip(r)),
};
const ANKLE_AXIS: AxisThrough = {
  name: 'mechanical axis',
  views: LONG_LEG,
  inputs: ANKLE,
  along: (centre, r) => direction(ankle(r), centre),
};
const TIBIAL_SHAFT_AXIS: AxisThrough = {
  name: 'shaft of the tibia',
  views: ANY_AP,
  inputs: TIBIAL_SHAFT.inputs,
  along: (_, r) => TIBIAL_SHAFT.direction(r),
};
const shaftTurned = (valgusCutDeg: number): AxisThrough => ({
  name: `shaft turned by ${valgusCutDeg.toFixed(1)} degrees`,
  views: ANY_AP,
  inputs: FEMORAL_SHAFT.inputs,
  along: (_, r) => {
    const shaft = FEMORAL_SHAFT.direction(r);
    return shaft.ok ? ok(turned(shaft.value, valgusCutDeg)) : shaft;
  },
});

const option = (centre: CentreOption, { name, views, inputs, along }: AxisThrough, turnDeg: number): AxisOption => ({
  name: `${name}, ${centre.name}`,
  views,
  inputs: [...new Set([...inputs, ...centre.inputs])],
  turnDeg,
  axis: (r) => {
    const through = centre.centre(r);
    if (!through.ok) return through;
    const d = along(through.value, r);
    return d.ok ? ok({ through: through.value, along: d.value }) : d;
  },
});
