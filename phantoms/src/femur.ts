import type { DrawnLimb } from './anthropometry.ts';
import { type Bone, CARTILAGE_MM, cortexInside, farthest, nearest, shaftMiddle } from './bone.ts';
import { ladder } from './ladder.ts';
import { type Mesh, reshaped } from './mesh.ts';
import { deg, dot, ease, type Point3, rad } from './space.ts';
import { template } from './template.ts';

export type FemurPoint =
  | 'headCentre'
  | 'notch'
  | 'medialEpicondyle'
  | 'medialEpicondyleSulcus'
  | 'lateralEpicondyle'
  | 'adductorTubercle'
  | 'trochanterTip'
  | 'medialPosterior'
  | 'lateralPosterior';

export interface Femur extends Bone<FemurPoint> {
  readonly headRadiusMm: number;
  /** Slope of the native joint line, lateral rise over medial-lateral run. */
  readonly jointLineSlope: number;
}

/** Figures of the template, in its frame (z = 0: tangent of the bony condyles at the mechanical axis). */
const T = {
  head: 399.13,
  headRadius: 23.84,
  medialEpicondyle: [-44, -12, 32.5],
  sulcus: [-43.4, -19, 27],
  lateralEpicondyle: [36.6, -16.5, 24.3],
  adductorTubercle: [-32.5, -4, 47],
  notch: [0, 0, 6.37],
  jointLineSlope: 0.0491,
  ap: 64.2,
  /** Posterior cortex of the distal shaft, extended to the condyles; most posterior point of the condyles. */
  posteriorCortex: -13,
  posteriorCondyle: -40,
  bowRadius: 1030,
  shaftTop: 300,
} as const;

/** Heights at which the cortices of the distal shaft give its direction. */
const SHAFT_LEVELS = [72, 170] as const;

/** Foremost and hindmost y of a mesh at a height, from the edges that cross it. */
function section(mesh: Mesh, z: number): { front: number; back: number } {
  let [front, back] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const { points: p, triangles: t } = mesh;
  for (let k = 0; k < t.length; k++) {
    const [i, j] = [3 * t[k]!, 3 * t[k % 3 === 2 ? k - 2 : k + 1]!];
    const [a, b] = [p[i + 2]! - z, p[j + 2]! - z];
    if (a < 0 === b < 0) continue;
    const y = p[i + 1]! + (a / (a - b)) * (p[j + 1]! - p[i + 1]!);
    front = Math.max(front, y);
    back = Math.min(back, y);
  }
  return { front, back };
}

/**
 * How far condyles stand behind the extended posterior cortex of a femur, and how deep the extended shaft is there,
 * mm, square to that cortex. `condyles` are those of a component; without them the bone's own count.
 */
export function posteriorOffset(
  mesh: Mesh,
  condyles: readonly Mesh[] = [mesh],
): { readonly offsetMm: number; readonly depthMm: number } {
  const [low, high] = SHAFT_LEVELS.map((z) => section(mesh, z));
  const run = SHAFT_LEVELS[1] - SHAFT_LEVELS[0];
  const lean = (high!.back - low!.back) / run;
  const square = 1 / Math.hypot(1, lean);
  const backwards: Point3 = [0, -square, lean * square];
  const condyle = condyles
    .map((m) => farthest(m, backwards, (p) => p[2] < 60))
    .reduce((a, b) => (dot(a, backwards) >= dot(b, backwards) ? a : b));
  const share = (condyle[2] - SHAFT_LEVELS[0]) / run;
  const at = (edge: 'front' | 'back') => low![edge] + share * (high![edge] - low![edge]);
  return { offsetMm: (at('back') - condyle[1]) * square, depthMm: (at('front') - at('back')) * square };
}

/** Lateral shift of the shaft that opens the angle between mechanical and anatomical axis; zero at the knee and at the head. */
const shaftShift = (z: number, headHeight: number): number => {
  const rise = z < 70 ? 0 : z < 110 ? (z - 70) ** 2 / 80 : z - 90;
  return rise * (1 - ease(headHeight - 115, headHeight - 30, z));
};

/**
 * Warps the template femur to the drawn limb. Frame: origin where the native joint line (cartilage) meets the
 * mechanical axis, z along that axis to the centre of the head, x lateral, y anterior.
 * By construction: head centre on the z axis at the drawn length, joint line at the drawn mLDFA, epicondyles and
 * adductor tubercle at their drawn heights, epicondylar width as drawn, angle between the axes as drawn.
 */
export function buildFemur(limb: DrawnLimb): Femur {
  const mesh = template('femur');
  const name = (p: readonly [number, number, number]) => nearest(mesh, p);
  const [me, le, at, sulcus] = [T.medialEpicondyle, T.lateralEpicondyle, T.adductorTubercle, T.sulcus].map(name);
  const rise = limb.medialEpicondyleMm - limb.lateralEpicondyleMm;
  const sx = Math.sqrt(limb.epicondylarWidthMm ** 2 - rise ** 2) / (le![0] - me![0]);
  const sy = limb.femurApMm / T.ap;
  const sh = limb.headDiameterMm / 2 / T.headRadius;
  const L = limb.femurMm;
  const jointLineSlope = Math.tan(rad(90 - limb.mldfaDeg));
  const shear = jointLineSlope - T.jointLineSlope / sx;
  const upright = (target: number, x: number) => target - shear * x * sx;
  const common: [number, number][] = [
    [-30, -30 + CARTILAGE_MM],
    // Two steps of slope one: up to the first the map only shifts, so that the tangent of the condyles stays one.
    [4, 4 + CARTILAGE_MM],
    [8, 8 + CARTILAGE_MM],
    [T.shaftTop, L + sh * (T.shaftTop - T.head)],
    [440, L + sh * (440 - T.head)],
  ];
  const upper = (L / T.head) * 110;
  const sulcusMm = limb.medialEpicondyleMm * (0.303 / 0.328);
  const medial = ladder([
    ...common,
    [sulcus![2], upright(sulcusMm, sulcus![0])],
    [me![2], upright(limb.medialEpicondyleMm, me![0])],
    [at![2], upright(limb.adductorTubercleMm, at![0])],
    [110, upper],
  ]);
  const lateral = ladder([...common, [le![2], upright(limb.lateralEpicondyleMm, le![0])], [110, upper]]);
  const stretch = (common[3]![1] - upper) / (T.shaftTop - 110);
  const bend = 1 / limb.bowRadiusMm - sy / stretch ** 2 / T.bowRadius;

  let offsetScale = 1;
  const warp = ([x, y, z]: Point3): Point3 => {
    const proximal = ease(285, 345, z);
    const side = ease(-14, 14, x);
    const height = medial(z) * (1 - side) + lateral(z) * side;
    const wide = x * (sx + (sh - sx) * proximal);
    const deep = y * (sy + (sh - sy) * proximal);
    const behind = Math.min(0, y - T.posteriorCortex) * (offsetScale - 1) * (1 - ease(45, 80, z)) * sy;
    const bow = (bend / 2) * height * (L - height) * (1 - ease(L - 60, L - 30, height));
    return [wide, deep + behind + bow, height + shear * wide * (1 - ease(70, 150, z))];
  };
  // The posterior offset is set last, once the bow has laid down the line of the posterior cortex that it counts from.
  const measured = posteriorOffset(reshaped(mesh, warp));
  const wanted = (measured.depthMm * limb.pcor) / (1 - limb.pcor);
  offsetScale += (wanted - measured.offsetMm) / ((T.posteriorCortex - T.posteriorCondyle) * sy);
  const first = reshaped(mesh, warp);
  const middle = shaftMiddle(first, 60, L - 60);
  const [low, half] = [100, L / 2];
  const run = half - low;
  const bent = shaftShift(half, L) - shaftShift(low, L);
  const turn = (Math.tan(rad(limb.amaDeg)) * run - (middle(half)[0] - middle(low)[0])) / bent;
  const lean = ([x, y, z]: Point3): Point3 => [x + turn * shaftShift(z, L), y, z];
  const outer = reshaped(first, lean);
  const carried = (p: Point3) => lean(warp(p));
  const isthmus = limb.femurIsthmusShare * L;
  const inner = cortexInside(outer, {
    from: 95,
    to: L - 85,
    shellMm: 1.1,
    diameter: [
      [60, limb.femurCanalMm + 24],
      [110, limb.femurCanalMm + 8],
      [170, limb.femurCanalMm + 2],
      [isthmus, limb.femurCanalMm],
      [L - 110, limb.femurCanalMm + 7],
    ],
  });
  const posterior = (side: 1 | -1) => farthest(outer, [0, -1, 0], (p) => p[0] * side > 8 && p[2] < 45);
  return {
    outer,
    inner,
    headRadiusMm: limb.headDiameterMm / 2,
    jointLineSlope,
    at: {
      headCentre: [0, 0, L],
      notch: carried(T.notch),
      medialEpicondyle: carried(me!),
      medialEpicondyleSulcus: carried(sulcus!),
      lateralEpicondyle: carried(le!),
      adductorTubercle: carried(at!),
      trochanterTip: farthest(outer, [0.3, 0, 1], (p) => p[0] > 15),
      medialPosterior: posterior(-1),
      lateralPosterior: posterior(1),
    },
  };
}

/** Angle between the mechanical axis and the line through the shaft's middle at half length and 10 cm over the joint line. */
export function shaftAngleDeg(femur: Femur): number {
  const L = femur.at.headCentre[2];
  const middle = shaftMiddle(femur.outer, 60, L - 60);
  return deg(Math.atan2(middle(L / 2)[0] - middle(100)[0], L / 2 - 100));
}
