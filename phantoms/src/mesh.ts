import { type Motion, moved, type Point3 } from './space.ts';

/** Closed triangle mesh: xyz triples in mm, and index triples. */
export interface Mesh {
  readonly points: Float64Array;
  readonly triangles: Uint32Array;
}

export const pointAt = (mesh: Mesh, i: number): Point3 => [
  mesh.points[3 * i]!,
  mesh.points[3 * i + 1]!,
  mesh.points[3 * i + 2]!,
];

export const pointCount = (mesh: Mesh): number => mesh.points.length / 3;

/** Moves every point by a function; the triangles stay. */
export function reshaped(mesh: Mesh, by: (p: Point3, index: number) => Point3): Mesh {
  const points = new Float64Array(mesh.points.length);
  for (let i = 0; i < points.length / 3; i++) points.set(by(pointAt(mesh, i), i), 3 * i);
  return { points, triangles: mesh.triangles };
}

export const movedMesh = (mesh: Mesh, by: Motion): Mesh => reshaped(mesh, (p) => moved(by, p));

/** Volume with sign: positive when the triangles face outwards, mm3. */
export function signedVolume({ points: p, triangles: t }: Mesh): number {
  let six = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    six +=
      p[a]! * (p[b + 1]! * p[c + 2]! - p[b + 2]! * p[c + 1]!) +
      p[a + 1]! * (p[b + 2]! * p[c]! - p[b]! * p[c + 2]!) +
      p[a + 2]! * (p[b]! * p[c + 1]! - p[b + 1]! * p[c]!);
  }
  return six / 6;
}

/** The same surface with outward-facing triangles. */
export function outward(mesh: Mesh): Mesh {
  if (signedVolume(mesh) >= 0) return mesh;
  const t = mesh.triangles.slice();
  for (let i = 0; i < t.length; i += 3) [t[i + 1], t[i + 2]] = [t[i + 2]!, t[i + 1]!];
  return { points: mesh.points, triangles: t };
}

/** Outward unit normal of each point, mean of its triangles weighted by area. */
export function normals({ points: p, triangles: t }: Mesh): Float64Array {
  const n = new Float64Array(p.length);
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i]!, 3 * t[i + 1]!, 3 * t[i + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    for (const k of [a, b, c]) {
      n[k]! += nx;
      n[k + 1]! += ny;
      n[k + 2]! += nz;
    }
  }
  for (let k = 0; k < n.length; k += 3) {
    const l = Math.hypot(n[k]!, n[k + 1]!, n[k + 2]!) || 1;
    n[k]! /= l;
    n[k + 1]! /= l;
    n[k + 2]! /= l;
  }
  return n;
}

/** Reads the vertices and triangles of a Wavefront OBJ text. */
export function readObj(text: string): Mesh {
  const points: number[] = [];
  const triangles: number[] = [];
  for (const line of text.split('\n')) {
    const [kind, a, b, c] = line.split(' ');
    if (kind === 'v') points.push(Number(a), Number(b), Number(c));
    if (kind === 'f') triangles.push(Number(a) - 1, Number(b) - 1, Number(c) - 1);
  }
  return outward({ points: Float64Array.from(points), triangles: Uint32Array.from(triangles) });
}
