import { CARTILAGE_MM } from './bone.ts';
import { condyleMeshes, type Leg, type Segment } from './leg.ts';
import { pointAt, pointCount } from './mesh.ts';
import {
  about,
  back,
  chained,
  deg,
  type Motion,
  minus,
  moved,
  type Point3,
  rad,
  STILL,
  shiftBy,
  turnCoronal,
  turnSagittal,
} from './space.ts';

/** Where each bone of a leg stands, from its own frame to the frame of the femur's knee. */
export type Pose = Readonly<Record<Segment, Motion>>;

/** Angles of the joint lines to their bones as they stand now: of the metal where there is metal. */
export function presentAngles(leg: Leg): { readonly mldfa: number; readonly mpta: number } {
  const r = leg.inPlace?.replacement;
  return r
    ? { mldfa: r.femurAngleDeg, mpta: 90 - r.trayVarusDeg }
    : { mldfa: leg.limb.mldfaDeg, mpta: leg.limb.mptaDeg };
}

/** Bearing surface of the tibia as a plane of its frame: a point and its slopes to lateral and to the front. */
function bearing(leg: Leg): { point: Point3; slopeX: number; slopeY: number } {
  const { inPlace, limb, tibia } = leg;
  if (!inPlace) return { point: [0, 4, 0], slopeX: tibia.jointLineSlope, slopeY: Math.tan(rad(limb.slopeDeg)) };
  const { replacement: r, trayAt } = inPlace;
  return {
    point: moved(trayAt, [0, -1, r.insertMm]),
    slopeX: Math.tan(rad(r.trayVarusDeg)),
    slopeY: Math.tan(rad(r.traySlopeDeg)),
  };
}

/** Tibia under the femur at a flexion and an opening of the joint: the surfaces touch, at the place where they bear. */
function tibiaUnderFemur(leg: Leg, flexionDeg: number, jlcaDeg: number): Motion {
  const { mldfa, mpta } = presentAngles(leg);
  const turn = chained(turnCoronal(mpta - mldfa - jlcaDeg), turnSagittal(flexionDeg));
  const { medial, lateral } = condyleMeshes(leg);
  const allowance = leg.inPlace ? 0 : CARTILAGE_MM;
  const plane = bearing(leg);
  const inverse = back(turn);
  let least = Number.POSITIVE_INFINITY;
  let contact: Point3 = [0, 0, 0];
  for (const mesh of [medial, lateral])
    for (let i = 0; i < pointCount(mesh); i++) {
      const q = moved(inverse, pointAt(mesh, i));
      // The plate is level here: the slope is taken where the contact stands, so that flexion does not creep.
      const clearance = q[2] - plane.slopeX * q[0];
      if (clearance < least) [least, contact] = [clearance, q];
    }
  const rollback = 0.07 * flexionDeg;
  const y = plane.point[1] - rollback;
  const level = plane.point[2] - plane.slopeX * plane.point[0] + plane.slopeY * (y - plane.point[1]);
  const shift: Point3 = [0, y - contact[1], level - (least - allowance)];
  return back(chained(inverse, shiftBy(shift)));
}

/** The line along which the patella rides in front of the femur, from the notch up: (y, z) of the femur's frame. */
function trochlearLine(leg: Leg): (readonly [number, number])[] {
  const line: (readonly [number, number])[] = [];
  if (leg.inPlace) {
    const { femur, femurAt } = leg.inPlace;
    for (const [y, z] of femur.profile.slice(12)) {
      const p = moved(femurAt, [0, y, z]);
      line.push([p[1] - 1.2, p[2]]);
    }
  } else
    for (let z = 8; z <= 52; z += 4) {
      let front = Number.NEGATIVE_INFINITY;
      for (let i = 0; i < pointCount(leg.femur.outer); i++) {
        const p = pointAt(leg.femur.outer, i);
        if (Math.abs(p[0]) < 7 && Math.abs(p[2] - z) < 3.5) front = Math.max(front, p[1]);
      }
      if (Number.isFinite(front)) line.push([front + CARTILAGE_MM, z]);
    }
  const [y, z] = line[line.length - 1]!;
  return [...line, [y - 1, z + 25], [y - 1, z + 60]];
}

/** Patella on its track: sliding down from above, it stops where the tendon of the drawn length is taut. */
function patellaOnTrack(leg: Leg, tibiaAt: Motion): Motion {
  const tubercle = moved(tibiaAt, leg.tibia.at.tubercle);
  const tendon = leg.limb.insallSalvati * leg.limb.patellaLengthMm;
  const behind = leg.inPlace ? leg.inPlace.patellaCutMm - 9 : -12 * leg.patella.scale - CARTILAGE_MM;
  const line = trochlearLine(leg).reverse();
  const k = leg.patella.scale;
  const pole: Point3 = [3.19 * k, -4.31 * k, -24.57 * k];
  const place = (i: number, s: number): Motion => {
    const [a, b] = [line[i]!, line[i + 1]!];
    const above = line[Math.max(0, i - 1)]!;
    const below = line[Math.min(line.length - 1, i + 2)]!;
    const lean = deg(Math.atan2(above[0] - below[0], above[1] - below[1]));
    const at: Point3 = [0, a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s];
    return chained(chained(shiftBy([0, -behind, 0]), turnSagittal(lean)), shiftBy(at));
  };
  const slack = (at: Motion): number => {
    const d = minus(moved(at, pole), tubercle);
    return Math.hypot(d[1], d[2]) - tendon;
  };
  for (let i = 0; i + 1 < line.length; i++) {
    let [low, high] = [0, 1];
    if (slack(place(i, 1)) > 0) continue;
    if (slack(place(i, 0)) <= 0) return place(i, 0);
    for (let step = 0; step < 30; step++) {
      const half = (low + high) / 2;
      if (slack(place(i, half)) > 0) low = half;
      else high = half;
    }
    return place(i, high);
  }
  return place(line.length - 2, 1);
}

/** The leg at a flexion and an opening, with the femur at rest. */
export function poseAtKnee(leg: Leg, flexionDeg: number, jlcaDeg: number): Pose {
  const tibia = tibiaUnderFemur(leg, flexionDeg, jlcaDeg);
  return { femur: STILL, tibia, patella: patellaOnTrack(leg, tibia) };
}

export const movedPose = (pose: Pose, by: Motion): Pose => ({
  femur: chained(pose.femur, by),
  tibia: chained(pose.tibia, by),
  patella: chained(pose.patella, by),
});

/** Turns the leg so that the line from hip to ankle stands upright but for a lean to lateral of its foot, deg. */
export function upright(leg: Leg, pose: Pose, leanDeg: number, sagittal: boolean): Pose {
  const hip = moved(pose.femur, leg.femur.at.headCentre);
  const ankle = moved(pose.tibia, leg.tibia.at.ankle);
  const v = minus(ankle, hip);
  const forward = sagittal ? deg(Math.atan2(v[1], -v[2])) : 0;
  const first = movedPose(pose, about([0, 0, 0], turnSagittal(forward)));
  const w = minus(moved(first.tibia, leg.tibia.at.ankle), moved(first.femur, leg.femur.at.headCentre));
  return movedPose(first, turnCoronal(leanDeg - deg(Math.atan2(w[0], -w[2]))));
}
