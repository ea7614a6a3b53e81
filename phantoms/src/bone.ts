import { ladder } from './ladder.ts';
import { type Mesh, normals, pointAt, pointCount, reshaped } from './mesh.ts';
import type { Point3 } from './space.ts';
import { ease } from './space.ts';

/** A bone in its own frame: outer surface, inner surface of the cortex, and named points. */
export interface Bone<Name extends string> {
  readonly outer: Mesh;
  readonly inner: Mesh;
  readonly at: Readonly<Record<Name, Point3>>;
}

/** Cartilage on each native joint surface, mm (reference 8.4: 2 + 2). Joint lines are those of the cartilage. */
export const CARTILAGE_MM = 2;

/** Middle of the shaft by height: half way between the outermost points near that level. */
export function shaftMiddle(mesh: Mesh, from: number, to: number): (z: number) => readonly [number, number] {
  const step = 12;
  const bins = Array.from({ length: Math.ceil((to - from) / step) }, () => [1e9, -1e9, 1e9, -1e9]);
  for (let i = 0; i < pointCount(mesh); i++) {
    const [x, y, z] = pointAt(mesh, i);
    const bin = bins[Math.floor((z - from) / step)];
    if (!bin) continue;
    bin[0] = Math.min(bin[0]!, x);
    bin[1] = Math.max(bin[1]!, x);
    bin[2] = Math.min(bin[2]!, y);
    bin[3] = Math.max(bin[3]!, y);
  }
  const full = bins.flatMap((b, i) =>
    b[1]! - b[0]! > 8 ? [{ z: from + (i + 0.5) * step, x: (b[0]! + b[1]!) / 2, y: (b[2]! + b[3]!) / 2 }] : [],
  );
  const line = (k: 'x' | 'y') => (z: number) => {
    let i = 0;
    while (i < full.length - 2 && z > full[i + 1]!.z) i++;
    const [a, b] = [full[i]!, full[i + 1]!];
    return a[k] + ((b[k] - a[k]) * (z - a.z)) / (b.z - a.z);
  };
  const [x, y] = [line('x'), line('y')];
  return (z) => [x(z), y(z)];
}

export interface Canal {
  /** Heights between which the canal is a tube; the cortex thins to a shell beyond. */
  readonly from: number;
  readonly to: number;
  /** Canal diameter by height, as knots. */
  readonly diameter: readonly (readonly [number, number])[];
  /** Cortical shell at the two ends, mm. */
  readonly shellMm: number;
}

/** Inner surface of the cortex: a tube of the given diameters in the shaft, a thin shell under the ends. */
export function cortexInside(outer: Mesh, canal: Canal): Mesh {
  const n = normals(outer);
  const middle = shaftMiddle(outer, canal.from - 30, canal.to + 30);
  const diameter = ladder(canal.diameter);
  return reshaped(outer, (p, i) => {
    const [x, y, z] = p;
    const shell: Point3 = [
      x - canal.shellMm * n[3 * i]!,
      y - canal.shellMm * n[3 * i + 1]!,
      z - canal.shellMm * n[3 * i + 2]!,
    ];
    const tube = ease(canal.from - 25, canal.from + 25, z) * (1 - ease(canal.to - 25, canal.to + 25, z));
    if (tube === 0) return shell;
    const [mx, my] = middle(z);
    const r = Math.hypot(x - mx, y - my) || 1;
    const k = Math.min(diameter(z) / 2, Math.max(1, r - 1.2)) / r;
    return [
      shell[0] + tube * (mx + (x - mx) * k - shell[0]),
      shell[1] + tube * (my + (y - my) * k - shell[1]),
      shell[2] + tube * (z - shell[2]),
    ];
  });
}

/** The point of the mesh nearest to a place. */
export function nearest(mesh: Mesh, place: Point3): Point3 {
  let best: Point3 = pointAt(mesh, 0);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < pointCount(mesh); i++) {
    const p = pointAt(mesh, i);
    const d = (p[0] - place[0]) ** 2 + (p[1] - place[1]) ** 2 + (p[2] - place[2]) ** 2;
    if (d < least) [best, least] = [p, d];
  }
  return best;
}

/** The point that lies farthest in a direction, among those that pass. Ties: the first in the mesh. */
export function farthest(mesh: Mesh, direction: Point3, among: (p: Point3) => boolean = () => true): Point3 {
  let best: Point3 | null = null;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < pointCount(mesh); i++) {
    const p = pointAt(mesh, i);
    const d = p[0] * direction[0] + p[1] * direction[1] + p[2] * direction[2];
    if (d > most && among(p)) [best, most] = [p, d];
  }
  if (!best) throw new Error('no point of the mesh passes');
  return best;
}
