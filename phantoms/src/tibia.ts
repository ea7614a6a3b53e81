import type { DrawnLimb } from './anthropometry.ts';
import { type Bone, CARTILAGE_MM, cortexInside, nearest } from './bone.ts';
import { ladder } from './ladder.ts';
import { type Mesh, reshaped } from './mesh.ts';
import { ease, type Point3, rad } from './space.ts';
import { template } from './template.ts';

export type TibiaPoint =
  | 'spines'
  | 'medialPlateau'
  | 'lateralPlateau'
  | 'tubercle'
  | 'fibularTip'
  | 'ankle'
  | 'talusMedial'
  | 'talusLateral'
  | 'plateauFront'
  | 'plateauBack';

export interface Tibia extends Bone<TibiaPoint> {
  readonly fibula: { readonly outer: Mesh; readonly inner: Mesh };
  readonly talus: { readonly outer: Mesh; readonly inner: Mesh };
  readonly jointLineSlope: number;
}

/** Figures of the template, in its frame (z = 0: line of the bony plateaus at the axis). */
const T = {
  ankle: -337.39,
  width: 79,
  ap: 52,
  medialPlateau: [-22, 4, -1.1],
  lateralPlateau: [28, 6, 2.2],
  slopeDeg: 5.5,
  tubercle: [14, 36.5, -27],
  fibularTip: [34.64, -26.62, -9.77],
  spines: [0, 2, 8.5],
  talusMedial: [-16.35, -3, -339.85],
  talusLateral: [16.35, -3, -339.85],
  plateauFront: [-20, 32, 2],
  plateauBack: [-22, -14, -6],
} as const;

/**
 * Warps tibia, fibula and talus to the drawn limb. Frame: origin where the native joint line (cartilage) meets
 * the mechanical axis, z along the line from the middle of the talar dome, x lateral, y anterior. By construction:
 * ankle centre on the z axis, plateau line at the drawn MPTA, tubercle and fibular tip at their drawn depths.
 */
export function buildTibia(limb: DrawnLimb): Tibia {
  const mesh = template('tibia');
  const [mp, lp, tub] = [T.medialPlateau, T.lateralPlateau, T.tubercle].map((p) => nearest(mesh, p));
  const sx = limb.tibiaWidthMm / T.width;
  const sy = limb.tibiaApMm / T.ap;
  const length = limb.tibiaMm;
  const jointLineSlope = Math.tan(rad(90 - limb.mptaDeg));
  const templateSlope = (lp![2] - mp![2]) / (lp![0] - mp![0]);
  const level = mp![2] - templateSlope * mp![0];
  const shearY = Math.tan(rad(limb.slopeDeg)) - Math.tan(rad(T.slopeDeg)) / sy;
  const run = lp![0] - mp![0];
  // Where the line between the two plateaus' points crosses the axis: shears leave the level there as it is.
  const middleY = mp![1] + ((lp![1] - mp![1]) * -mp![0]) / run;
  const shearX = jointLineSlope - (templateSlope + (shearY * sy * (lp![1] - mp![1])) / run) / sx;
  const sheared = (x: number, y: number) => shearX * x * sx + shearY * (y - middleY) * sy;
  const ends: [number, number][] = [
    [20, 20 - level - CARTILAGE_MM],
    [-4, -4 - level - CARTILAGE_MM],
    [-9, -9 - level - CARTILAGE_MM],
    [-90, (-90 * length) / -T.ankle],
    [-300, -length + (T.ankle + 300) * -1],
    [-360, -length + (T.ankle + 360) * -1],
  ];
  const back = ladder(ends);
  const front = ladder([...ends, [tub![2], -limb.tubercleMm - sheared(tub![0], tub![1])]]);
  const warp = ([x, y, z]: Point3): Point3 => {
    const forward = ease(12, 30, y);
    const height = back(z) * (1 - forward) + front(z) * forward;
    return [x * sx, y * sy, height + sheared(x, y) * ease(-120, -45, z)];
  };
  const outer = reshaped(mesh, warp);
  const tip = nearest(template('fibula'), T.fibularTip);
  const tipShift = -limb.fibularTipMm - back(tip[2]);
  const fibulaWarp = ([x, y, z]: Point3): Point3 => [x * sx, y * sy, back(z) + tipShift * ease(-150, -40, z)];
  const fibula = reshaped(template('fibula'), fibulaWarp);
  const talus = reshaped(template('talus'), ([x, y, z]) => [x * sx, y * sy, -length + (z - T.ankle) * sx]);
  const dome = (p: Point3): Point3 => [p[0] * sx, p[1] * sy, -length + (p[2] - T.ankle) * sx];
  const c = limb.tibiaCanalMm;
  return {
    outer,
    inner: cortexInside(outer, {
      from: -length + 65,
      to: -75,
      shellMm: 1,
      diameter: [
        [-length + 40, c + 14],
        [-length + 100, c],
        [-length / 2, c + 1.5],
        [-100, c + 9],
        [-60, c + 26],
      ],
    }),
    fibula: {
      outer: fibula,
      inner: cortexInside(fibula, {
        from: -length + 50,
        to: -55,
        shellMm: 0.8,
        diameter: [
          [-length, 5],
          [-55, 5],
        ],
      }),
    },
    talus: {
      outer: talus,
      inner: cortexInside(talus, {
        from: 1e5,
        to: 1e5 + 200,
        shellMm: 0.9,
        diameter: [
          [0, 1],
          [1, 1],
        ],
      }),
    },
    jointLineSlope,
    at: {
      spines: warp(T.spines),
      medialPlateau: warp(mp!),
      lateralPlateau: warp(lp!),
      tubercle: warp(tub!),
      fibularTip: fibulaWarp(tip),
      ankle: [0, 0, -length],
      talusMedial: dome(T.talusMedial),
      talusLateral: dome(T.talusLateral),
      plateauFront: warp(nearest(mesh, T.plateauFront)),
      plateauBack: warp(nearest(mesh, T.plateauBack)),
    },
  };
}
