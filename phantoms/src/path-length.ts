import { type Beam, onDetector } from './beam.ts';
import type { Mesh } from './mesh.ts';
import { signedVolume } from './mesh.ts';
import { cross, dot, minus, type Point3, unit } from './space.ts';

/**
 * Adds, to every pixel, `weight` times the length of the ray inside a closed mesh. Each triangle adds its distance
 * from the source where the ray leaves the solid and takes it away where the ray enters; triangles that share an
 * edge compute the same crossings, so every ray crosses every closed surface an even number of times.
 * Lengths are exact for flat faces at pixel centres. `sums` holds rays' parameters (0 source, 1 detector) until
 * `toMillimetres` scales them.
 */
export function addPathLength(beam: Beam, mesh: Mesh, weight: number, sums: Float32Array): void {
  const n = mesh.points.length / 3;
  const { columns, rows, source } = beam;
  const normal = cross(beam.along, beam.down);
  const reach = dot(minus(beam.centre, source), normal);
  const px = new Float64Array(n);
  const py = new Float64Array(n);
  const rel = new Float64Array(3 * n);
  const depth = new Float64Array(n);
  const centre = minus(beam.centre, source);
  const [cu, cv] = [dot(centre, beam.along), dot(centre, beam.down)];
  for (let i = 0; i < n; i++) {
    const r: Point3 = [
      mesh.points[3 * i]! - source[0],
      mesh.points[3 * i + 1]! - source[1],
      mesh.points[3 * i + 2]! - source[2],
    ];
    rel.set(r, 3 * i);
    const d = dot(r, normal) / reach;
    depth[i] = d;
    px[i] = (dot(r, beam.along) / d - cu) / beam.spacingMm + (columns - 1) / 2;
    py[i] = (dot(r, beam.down) / d - cv) / beam.spacingMm + (rows - 1) / 2;
  }
  const corner = minus(onDetector(beam, 0, 0), source);
  const [su, sv] = [beam.spacingMm, beam.spacingMm];
  // A mirrored mesh turns inside out: its volume tells.
  const turn = (signedVolume(mesh) < 0 ? -1 : 1) * weight;
  const t = mesh.triangles;
  for (let k = 0; k < t.length; k += 3) {
    const [a, b, c] = [t[k]!, t[k + 1]!, t[k + 2]!];
    const area = (px[b]! - px[a]!) * (py[c]! - py[a]!) - (px[c]! - px[a]!) * (py[b]! - py[a]!);
    if (area === 0) continue;
    const top = Math.min(py[a]!, py[b]!, py[c]!);
    const bottom = Math.max(py[a]!, py[b]!, py[c]!);
    const r0 = Math.max(0, Math.ceil(top));
    const r1 = Math.min(rows - 1, Math.ceil(bottom) - 1);
    if (r0 > r1) continue;
    const [ax, ay, az] = [rel[3 * a]!, rel[3 * a + 1]!, rel[3 * a + 2]!];
    const [ux, uy, uz] = [rel[3 * b]! - ax, rel[3 * b + 1]! - ay, rel[3 * b + 2]! - az];
    const [vx, vy, vz] = [rel[3 * c]! - ax, rel[3 * c + 1]! - ay, rel[3 * c + 2]! - az];
    const face: Point3 = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const height = face[0] * ax + face[1] * ay + face[2] * az;
    // Ray parameter t = height / (face . ray); the ray runs linearly over the detector.
    const base = dot(face, corner);
    const du = dot(face, beam.along) * su;
    const dv = dot(face, beam.down) * sv;
    const near = Math.min(depth[a]!, depth[b]!, depth[c]!);
    const far = Math.max(depth[a]!, depth[b]!, depth[c]!);
    // Faces turned to the source are entries; `height` is face . (point - source): + = turned away, an exit.
    const sign = height > 0 ? turn : -turn;
    for (let r = r0; r <= r1; r++) {
      let lo = Number.POSITIVE_INFINITY;
      let hi = Number.NEGATIVE_INFINITY;
      for (let e = 0; e < 3; e++) {
        const i = e === 0 ? a : e === 1 ? b : c;
        const j = e === 0 ? b : e === 1 ? c : a;
        // Always from the upper to the lower end (ties by index), so that both neighbours get the same crossing.
        const up = py[i]! < py[j]! || (py[i]! === py[j]! && i < j) ? i : j;
        const dn = up === i ? j : i;
        const [y0, y1] = [py[up]!, py[dn]!];
        if (y0 <= r && r < y1) {
          const x = px[up]! + ((r - y0) / (y1 - y0)) * (px[dn]! - px[up]!);
          if (x < lo) lo = x;
          if (x > hi) hi = x;
        }
      }
      const c0 = lo <= 0 ? 0 : Math.ceil(lo);
      const c1 = hi > columns ? columns - 1 : Math.ceil(hi) - 1;
      let denominator = base + dv * r + du * c0;
      let at = r * columns + c0;
      for (let col = c0; col <= c1; col++, at++, denominator += du) {
        let s = height / denominator;
        if (!(s >= near)) s = near;
        else if (s > far) s = far;
        sums[at]! += sign * s;
      }
    }
  }
}

/** Length of a pixel's ray from source to detector, mm: turns ray parameters into millimetres. */
export function rayLengths(beam: Beam): (column: number, row: number) => number {
  const origin = minus(onDetector(beam, 0, 0), beam.source);
  const n = unit(cross(beam.along, beam.down));
  const depth = dot(origin, n);
  const [u0, v0] = [dot(origin, beam.along), dot(origin, beam.down)];
  return (column, row) => Math.hypot(depth, u0 + column * beam.spacingMm, v0 + row * beam.spacingMm);
}
