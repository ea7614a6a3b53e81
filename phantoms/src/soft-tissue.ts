import type { Leg, Solid } from './leg.ts';
import type { Mesh } from './mesh.ts';
import type { Pose } from './pose.ts';
import { lofted } from './solids.ts';
import { type Motion, moved, type Point3 } from './space.ts';

/** Widths of a limb along it: share of the bone's length, half width, half depth, shift to lateral and to the front; mm. */
type Station = readonly [along: number, wide: number, deep: number, lateral: number, front: number];

const THIGH: readonly Station[] = [
  [1.12, 98, 112, 8, -18],
  [0.95, 92, 98, 10, -14],
  [0.8, 84, 88, 8, -8],
  [0.6, 76, 78, 4, -2],
  [0.42, 68, 70, 0, 2],
  [0.26, 60, 63, -2, 4],
  [0.14, 55, 58, -3, 3],
  [0.04, 54, 58, -2, 0],
  [-0.03, 53, 57, -1, -2],
];
const SHANK: readonly Station[] = [
  [0.05, 53, 57, -1, -2],
  [-0.04, 52, 56, -1, -3],
  [-0.12, 51, 56, -1, -8],
  [-0.25, 54, 60, -1, -16],
  [-0.38, 51, 56, 0, -15],
  [-0.55, 42, 45, 0, -10],
  [-0.75, 33, 36, 0, -7],
  [-0.9, 30, 36, 0, -5],
  [-1.0, 34, 46, 0, -2],
  [-1.08, 36, 52, 0, 6],
];
const FOOT: readonly Station[] = [
  [-1.0, 33, 44, 0, 0],
  [-1.06, 35, 62, 0, 16],
  [-1.13, 37, 105, 1, 46],
  [-1.18, 38, 118, 2, 56],
  [-1.205, 36, 114, 2, 56],
];

function tube(stations: readonly Station[], lengthMm: number, girth: number, inset: number, at: Motion): Mesh {
  const pick = (k: 1 | 2 | 3 | 4) => ladder2(stations.map((s) => [s[0], s[k]] as const));
  const [wide, deep, lateral, front] = [pick(1), pick(2), pick(3), pick(4)];
  const low = Math.min(...stations.map((s) => s[0]));
  const high = Math.max(...stations.map((s) => s[0]));
  const rings = Array.from({ length: 41 }, (_, r) => {
    const s = low + ((high - low) * r) / 40;
    return Array.from({ length: 48 }, (_, k): Point3 => {
      const a = (Math.PI * k) / 24;
      return moved(at, [
        lateral(s) + (wide(s) * girth - inset) * Math.cos(a),
        front(s) + (deep(s) * girth - inset) * Math.sin(a),
        s * lengthMm,
      ]);
    });
  });
  return lofted(rings);
}

/** Smooth curve through stations that may rise and fall (Catmull-Rom). */
function ladder2(knots: readonly (readonly [number, number])[]): (x: number) => number {
  const k = [...knots].sort((a, b) => a[0] - b[0]);
  return (x) => {
    let i = 0;
    while (i < k.length - 2 && x > k[i + 1]![0]) i++;
    const [p0, p1, p2, p3] = [k[Math.max(0, i - 1)]!, k[i]!, k[i + 1]!, k[Math.min(k.length - 1, i + 2)]!];
    const t = Math.min(1, Math.max(0, (x - p1[0]) / (p2[0] - p1[0])));
    const m1 = ((p2[1] - p0[1]) / (p2[0] - p0[0] || 1)) * (p2[0] - p1[0]);
    const m2 = ((p3[1] - p1[1]) / (p3[0] - p1[0] || 1)) * (p2[0] - p1[0]);
    const [t2, t3] = [t * t, t * t * t];
    return (2 * t3 - 3 * t2 + 1) * p1[1] + (t3 - 2 * t2 + t) * m1 + (-2 * t3 + 3 * t2) * p2[1] + (t3 - t2) * m2;
  };
}

/** Skin and muscle of one leg in the room: fat outside, a denser core within. Bones take their place out of it. */
export function softSolids(leg: Leg, pose: Pose, softIndex: number): Omit<Solid, 'segment'>[] {
  const bone = leg.limb.epicondylarWidthMm;
  const girth = (softIndex * bone) / 2 / 58;
  const fat = 5 + 12 * Math.max(0, softIndex - 1.3);
  const L = leg.limb.femurMm;
  const t = leg.limb.tibiaMm;
  const parts: [readonly Station[], number, Motion][] = [
    [THIGH, L, pose.femur],
    [SHANK, t, pose.tibia],
  ];
  return [
    ...parts.flatMap(([s, l, at]) => [
      { mesh: tube(s, l, girth, 0, at), soft: 0.9 },
      { mesh: tube(s, l, girth, fat, at), soft: 0.12 },
    ]),
    { mesh: tube(FOOT, t, 0.95, 0, pose.tibia), soft: 0.9 },
  ];
}
