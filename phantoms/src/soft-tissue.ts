import type { Leg, Solid } from './leg.ts';
import type { Mesh } from './mesh.ts';
import type { Pose } from './pose.ts';
import { lofted } from './solids.ts';
import { add, between, type Motion, moved, type Point3, times } from './space.ts';

/** Widths of a limb along it: share of the bone's length, half width, half depth, shift to lateral and to the front; mm. */
type Station = readonly [along: number, wide: number, deep: number, lateral: number, front: number];

const THIGH: readonly Station[] = [
  [1.16, 100, 116, 10, -20],
  [0.95, 92, 98, 10, -14],
  [0.8, 84, 88, 8, -8],
  [0.6, 76, 78, 4, -2],
  [0.42, 68, 70, 0, 2],
  [0.26, 60, 64, -2, 5],
  [0.13, 55, 60, -3, 5],
];
const KNEE: Station = [0, 54, 61, -1, 4];
const SHANK: readonly Station[] = [
  [-0.1, 51, 57, -1, -5],
  [-0.25, 54, 60, -1, -15],
  [-0.38, 51, 56, 0, -15],
  [-0.55, 42, 45, 0, -10],
  [-0.75, 33, 36, 0, -7],
  [-0.9, 30, 36, 0, -5],
  [-1.0, 33, 46, 0, 0],
  [-1.06, 35, 66, 0, 18],
  [-1.13, 37, 105, 1, 46],
  [-1.18, 38, 118, 2, 56],
  [-1.205, 36, 112, 2, 56],
];
interface Bounds {
  readonly lengthMm: number;
  readonly girth: number;
  readonly inset: number;
  readonly at: Motion;
}

/** One ring of skin, across the bone at a station. */
function ring([along, wide, deep, lateral, front]: Station, b: Bounds): Point3[] {
  return Array.from({ length: 48 }, (_, k): Point3 => {
    const a = (Math.PI * k) / 24;
    return moved(b.at, [
      lateral + (wide * b.girth - b.inset) * Math.cos(a),
      front + (deep * b.girth - b.inset) * Math.sin(a),
      along * b.lengthMm,
    ]);
  });
}

/** Rings between the stations, top first. */
function rings(stations: readonly Station[], b: Bounds, steps: number): Point3[][] {
  const pick = (k: 1 | 2 | 3 | 4) => curve(stations.map((s) => [s[0], s[k]] as const));
  const [wide, deep, lateral, front] = [pick(1), pick(2), pick(3), pick(4)];
  const [top, bottom] = [stations[0]![0], stations[stations.length - 1]![0]];
  return Array.from({ length: steps + 1 }, (_, i) => {
    const s = top + ((bottom - top) * i) / steps;
    return ring([s, wide(s), deep(s), lateral(s), front(s)], b);
  });
}

/** One closed limb from the groin to the sole, bent at the knee. */
function limbTube(thigh: Bounds, shank: Bounds): Mesh {
  const above = ring(KNEE, thigh);
  const below = ring(KNEE, shank);
  const upper = rings(THIGH, thigh, 28);
  const lower = rings(SHANK, shank, 40);
  const [a, b] = [upper[upper.length - 1]!, lower[0]!];
  // A smooth bend that passes half way between the two bones' ideas of the knee.
  const knee = [0.2, 0.35, 0.5, 0.65, 0.8].map((t) =>
    a.map((p, i): Point3 => {
      const through = between(above[i]!, below[i]!);
      const handle = add(times(through, 2), times(between(p, b[i]!), -1));
      return add(add(times(p, (1 - t) ** 2), times(handle, 2 * t * (1 - t))), times(b[i]!, t * t));
    }),
  );
  return lofted([...upper, ...knee, ...lower]);
}

/** Smooth curve through stations that may rise and fall (Catmull-Rom). */
function curve(knots: readonly (readonly [number, number])[]): (x: number) => number {
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
  const girth = (softIndex * leg.limb.epicondylarWidthMm) / 2 / 58;
  const fat = 5 + 12 * Math.max(0, softIndex - 1.3);
  const tube = (inset: number) =>
    limbTube(
      { lengthMm: leg.limb.femurMm, girth, inset, at: pose.femur },
      { lengthMm: leg.limb.tibiaMm, girth, inset, at: pose.tibia },
    );
  return [
    { mesh: tube(0), soft: 0.9 },
    { mesh: tube(fat), soft: 0.12 },
  ];
}
