import type { Side } from '@gapline/core/landmarks/side.ts';
import type { View } from '@gapline/core/landmarks/view.ts';
import type { Beam } from './beam.ts';
import type { RoomSolid } from './exposure.ts';
import type { Leg } from './leg.ts';
import { movedMesh } from './mesh.ts';
import { movedPose, type Pose, poseAtKnee, upright } from './pose.ts';
import { softSolids } from './soft-tissue.ts';
import { ellipsoid, rod } from './solids.ts';
import {
  add,
  between,
  chained,
  type Motion,
  minus,
  moved,
  type Point3,
  rad,
  times,
  turnExternal,
  unit,
} from './space.ts';

/** One leg as it stands in the room: each bone's motion into room axes (x patient's left, y anterior, z up). */
export interface Standing {
  readonly side: Side;
  readonly leg: Leg;
  readonly pose: Pose;
  /** Present opening of the joint, lateral +, deg. */
  readonly jlcaDeg: number;
  readonly flexionDeg: number;
  readonly rotationDeg: number;
}

export interface Ball {
  readonly centre: Point3;
  readonly radiusMm: number;
}

/** Everything that one exposure sees. */
export interface Scene {
  readonly view: View;
  readonly side: Side | 'both';
  readonly beam: Beam;
  readonly legs: readonly Standing[];
  readonly ball: Ball | null;
  readonly solids: readonly RoomSolid[];
  readonly letters: readonly { readonly side: Side; readonly column: number; readonly row: number }[];
  readonly orientation: readonly [string, string];
  readonly sourceToDetectorMm: number;
  readonly objectToDetectorMm: number;
  readonly kneePoint: Point3;
}

export interface SceneChoices {
  readonly ideal: boolean;
  readonly rotationDeg: number;
  readonly flexionDeg: number;
  /** Rotation on the film from the side; absent = a true lateral. */
  readonly sideRotationDeg?: number;
  readonly mag: number | undefined;
  readonly ball: boolean;
  readonly ballDepthMm: number;
  readonly resolution: number;
  readonly softIndex: number;
}

/** Leg frame (x lateral) to room frame (x to the patient's left). */
const intoRoom = (side: Side): Motion => ({
  m: [side === 'left' ? 1 : -1, 0, 0, 0, 1, 0, 0, 0, 1],
  shift: [0, 0, 0],
});

const presentOpening = (leg: Leg): number => (leg.inPlace ? 0 : leg.limb.jlcaDeg);

function stand(leg: Leg, side: Side, c: SceneChoices, leanDeg: number): Standing {
  const jlcaDeg = presentOpening(leg);
  const flexionDeg = c.ideal ? 0 : c.flexionDeg;
  const rotationDeg = c.ideal ? 0 : c.rotationDeg;
  const pose = upright(leg, poseAtKnee(leg, flexionDeg, jlcaDeg), c.ideal ? 0 : leanDeg, !c.ideal);
  return {
    side,
    leg,
    jlcaDeg,
    flexionDeg,
    rotationDeg,
    pose: movedPose(pose, chained(turnExternal(rotationDeg), intoRoom(side))),
  };
}

const shifted = (s: Standing, by: Point3): Standing => ({
  ...s,
  pose: movedPose(s.pose, { m: [1, 0, 0, 0, 1, 0, 0, 0, 1], shift: by }),
});

function solidsOf(s: Standing, softIndex: number): RoomSolid[] {
  return [
    ...s.leg.solids.map((b) => ({
      bone: b.bone,
      metal: b.metal,
      soft: b.soft,
      spongy: b.spongy,
      mesh: movedMesh(b.mesh, s.pose[b.segment]),
    })),
    ...softSolids(s.leg, s.pose, softIndex),
  ];
}

/** Beam from in front, horizontal, with the detector behind the patient. */
function frontBeam(
  at: { x: number; z: number },
  sid: number,
  oid: number,
  size: { columns: number; rows: number; spacingMm: number },
): Beam {
  return {
    source: [at.x, sid - oid, at.z],
    centre: [at.x, -oid, at.z],
    along: [1, 0, 0],
    down: [0, 0, -1],
    ...size,
  };
}

const sized = (columns: number, rows: number, spacingMm: number, resolution: number) => ({
  columns: Math.round(columns * resolution),
  rows: Math.round(rows * resolution),
  spacingMm: spacingMm / resolution,
});

const BALL_RADIUS = 12.5;
const IDEAL_SID = 200_000;

const steelBall = (ball: Ball): RoomSolid => ({
  mesh: ellipsoid(ball.centre, [ball.radiusMm, ball.radiusMm, ball.radiusMm], 48),
  metal: 0.95,
});

const kneeOf = (s: Standing): Point3 => moved(s.pose.femur, [0, 0, 0]);

/** A line of points and radii with its two ends rounded off. */
function blunted(line: readonly Point3[], radii: readonly number[]): [Point3[], number[]] {
  const cap = (end: Point3, next: Point3, r: number): [Point3, number][] => {
    const out = unit(minus(end, next));
    return [0.95, 0.8, 0.5].map((t) => [add(end, times(out, 0.8 * r * t)), r * Math.sqrt(1 - t * t)]);
  };
  const n = line.length - 1;
  const first = cap(line[0]!, line[1]!, radii[0]!);
  const last = cap(line[n]!, line[n - 1]!, radii[n]!).reverse();
  const all: [Point3, number][] = [...first, ...line.map((p, i): [Point3, number] => [p, radii[i]!]), ...last];
  return [all.map(([p]) => p), all.map(([, r]) => r)];
}

/** A hint of the pelvis over two hips: sockets, iliac wings, pubic and ischial rami, sacrum. */
function pelvis(hips: readonly Point3[]): RoomSolid[] {
  const middle = between(hips[0]!, hips[1]!);
  const across = minus(hips[1]!, hips[0]!);
  const out: RoomSolid[] = [];
  for (const hip of hips) {
    const lateral = unit([hip[0] - middle[0], 0, 0]);
    const at = (x: number, y: number, z: number): Point3 => add(hip, [x * lateral[0], y, z]);
    const bar = (line: Point3[], radii: number[]) =>
      out.push({ mesh: rod(...blunted(line, radii), 20), bone: 0.3, soft: -0.3 });
    bar([at(2, -4, 27), at(-2, -8, 42), at(-4, -14, 75), at(14, -12, 118)], [27, 26, 20, 12]);
    bar([at(-22, 2, 8), at(-34, 14, 4), at(-58, 26, -14), at(-76, 30, -28)], [17, 12, 8.5, 10]);
    bar([at(-20, -14, 2), at(-26, -34, -22), at(-32, -40, -50), at(-38, -28, -64)], [17, 14, 13, 9]);
    bar([at(-38, -28, -64), at(-56, 0, -56), at(-74, 26, -36)], [9, 6.5, 8]);
  }
  out.push({ mesh: ellipsoid(add(middle, [0, -78, 92]), [46, 22, 58], 24), bone: 0.22, soft: -0.2 });
  out.push({ mesh: ellipsoid(add(middle, [0, -6, 120]), [Math.abs(across[0]) * 0.5 + 92, 92, 190], 32), trunk: 0.95 });
  return out;
}

/** Long-leg standing film of both legs from in front. */
export function longLegScene(right: Leg, left: Leg, c: SceneChoices): Scene {
  const hipHalf = 0.21 * ((right.limb.femurMm + left.limb.femurMm) / 2);
  const ankleHalf = hipHalf - 16;
  const legs = (
    [
      ['right', right],
      ['left', left],
    ] as const
  ).map(([side, leg]) => {
    const length = leg.limb.femurMm + leg.limb.tibiaMm;
    const lean = (Math.atan2(hipHalf - ankleHalf, length) * -180) / Math.PI;
    const s = stand(leg, side, c, lean);
    const hip = moved(s.pose.femur, leg.femur.at.headCentre);
    const ankle = moved(s.pose.tibia, leg.tibia.at.ankle);
    const sign = side === 'left' ? 1 : -1;
    const knee = kneeOf(s);
    return shifted(s, [sign * hipHalf - hip[0], -knee[1], -ankle[2]]);
  });
  const hips = legs.map((s) => moved(s.pose.femur, s.leg.femur.at.headCentre));
  const top = Math.max(hips[0]![2], hips[1]![2]);
  const [sid, oid] = c.ideal ? [IDEAL_SID, 200] : [2600, 200];
  const size = sized(3000, 7000, 0.16, c.resolution);
  const magnification = sid / (sid - oid);
  const height = (size.rows * size.spacingMm) / magnification;
  const z = top + 90 - height / 2;
  const beam = frontBeam({ x: 0, z }, sid, oid, size);
  const operated = legs.find((s) => s.leg.inPlace) ?? legs[0]!;
  const knee = kneeOf(operated);
  const ball: Ball | null = c.ball
    ? {
        centre: [knee[0] + (operated.side === 'left' ? 1 : -1) * 86, c.ballDepthMm, knee[2] - 24],
        radiusMm: BALL_RADIUS,
      }
    : null;
  const lettersRow = Math.round(size.rows * 0.3);
  return {
    view: 'long-leg',
    side: 'both',
    beam,
    legs,
    ball,
    solids: [...legs.flatMap((s) => solidsOf(s, c.softIndex)), ...pelvis(hips), ...(ball ? [steelBall(ball)] : [])],
    letters: [
      { side: 'right', column: Math.round(size.columns * 0.05), row: lettersRow },
      { side: 'left', column: Math.round(size.columns * 0.92), row: lettersRow },
    ],
    orientation: ['L', 'F'],
    sourceToDetectorMm: sid,
    objectToDetectorMm: oid,
    kneePoint: knee,
  };
}

/** Source to detector and object to detector, mm: for a magnification asked for at the usual source distance. */
function distances(c: SceneChoices, usual: { sid: number; oid: number }): { sid: number; oid: number } {
  if (c.ideal) return { sid: IDEAL_SID, oid: usual.oid };
  return c.mag ? { sid: usual.sid, oid: usual.sid - usual.sid / c.mag } : usual;
}

/** Short film of one knee from in front. */
export function kneeFrontScene(leg: Leg, side: Side, c: SceneChoices): Scene {
  const standing = stand(leg, side, c, -1);
  const knee = kneeOf(standing);
  const s = shifted(standing, times(knee, -1));
  const { sid, oid } = distances(c, { sid: 1150, oid: 120 });
  const size = sized(2048, 2880, 0.148, c.resolution);
  const beam = frontBeam({ x: 0, z: 0 }, sid, oid, size);
  const outside = side === 'left' ? 1 : -1;
  const ball: Ball | null = c.ball ? { centre: [outside * 76, c.ballDepthMm, -62], radiusMm: BALL_RADIUS } : null;
  return {
    view: 'ap',
    side,
    beam,
    legs: [s],
    ball,
    solids: [...solidsOf(s, c.softIndex), ...(ball ? [steelBall(ball)] : [])],
    letters: [
      { side, column: Math.round(size.columns * (outside > 0 ? 0.86 : 0.08)), row: Math.round(size.rows * 0.12) },
    ],
    orientation: ['L', 'F'],
    sourceToDetectorMm: sid,
    objectToDetectorMm: oid,
    kneePoint: [0, 0, 0],
  };
}

/** Side film: the lateral side lies on the detector, the beam comes from medial; the front looks to the right of a right knee. */
export function kneeSideScene(leg: Leg, side: Side, c: SceneChoices): Scene {
  const flexionDeg = 30;
  const pose = poseAtKnee(leg, flexionDeg, presentOpening(leg));
  const turned = movedPose(pose, { m: turnTilt(-0.45 * flexionDeg), shift: [0, 0, 0] });
  const s: Standing = {
    side,
    leg,
    jlcaDeg: presentOpening(leg),
    flexionDeg,
    rotationDeg: c.sideRotationDeg ?? 0,
    pose: movedPose(turned, chained(turnExternal(c.sideRotationDeg ?? 0), intoRoom(side))),
  };
  const lateral = side === 'left' ? 1 : -1;
  const { sid, oid } = distances(c, { sid: 1150, oid: 105 });
  const size = sized(2048, 2880, 0.148, c.resolution);
  const forward = side === 'right' ? 1 : -1;
  const beam: Beam = {
    source: [-lateral * (sid - oid), 6, -4],
    centre: [lateral * oid, 6, -4],
    along: [0, forward, 0],
    down: [0, 0, -1],
    ...size,
  };
  const ball: Ball | null = c.ball ? { centre: [lateral * -c.ballDepthMm, 76, -82], radiusMm: BALL_RADIUS } : null;
  return {
    view: 'lateral',
    side,
    beam,
    legs: [s],
    ball,
    solids: [...solidsOf(s, c.softIndex), ...(ball ? [steelBall(ball)] : [])],
    letters: [
      { side, column: Math.round(size.columns * (forward > 0 ? 0.86 : 0.1)), row: Math.round(size.rows * 0.1) },
    ],
    orientation: [forward > 0 ? 'A' : 'P', 'F'],
    sourceToDetectorMm: sid,
    objectToDetectorMm: oid,
    kneePoint: [0, 0, 0],
  };
}

const turnTilt = (angleDeg: number): readonly number[] => {
  const [k, s] = [Math.cos(rad(angleDeg)), Math.sin(rad(angleDeg))];
  return [1, 0, 0, 0, k, s, 0, -s, k];
};

/**
 * Skyline: the knee bent to 60 degrees, the beam coming from the thigh at 30 degrees to it, along the back of the
 * patella, onto a detector over the shin.
 */
export function skylineScene(leg: Leg, side: Side, c: SceneChoices): Scene {
  const flexionDeg = 60;
  const pose = movedPose(poseAtKnee(leg, flexionDeg, presentOpening(leg)), intoRoom(side));
  const s: Standing = { side, leg, jlcaDeg: presentOpening(leg), flexionDeg, rotationDeg: 0, pose };
  const patella = moved(pose.patella, [0, 0, 0]);
  const onward: Point3 = [0, -Math.sin(rad(28)), -Math.cos(rad(28))];
  const facing: Point3 = [0, -Math.cos(rad(28)), Math.sin(rad(28))];
  const { sid, oid } = distances(c, { sid: 1150, oid: 170 });
  const size = sized(1600, 1300, 0.148, c.resolution);
  const middle = add(patella, times(facing, 20));
  const beam: Beam = {
    source: add(middle, times(onward, -(sid - oid))),
    centre: add(middle, times(onward, oid)),
    along: [1, 0, 0],
    down: facing,
    ...size,
  };
  const outside = side === 'left' ? 1 : -1;
  const ball: Ball | null = c.ball
    ? { centre: add(middle, add([outside * 68, 0, 0], times(facing, -26))), radiusMm: BALL_RADIUS }
    : null;
  return {
    view: 'skyline',
    side,
    beam,
    legs: [s],
    ball,
    solids: [...solidsOf(s, c.softIndex), ...(ball ? [steelBall(ball)] : [])],
    letters: [
      { side, column: Math.round(size.columns * (outside > 0 ? 0.84 : 0.08)), row: Math.round(size.rows * 0.16) },
    ],
    orientation: ['L', 'P'],
    sourceToDetectorMm: sid,
    objectToDetectorMm: oid,
    kneePoint: patella,
  };
}
