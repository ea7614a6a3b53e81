import { type Mesh, outward } from './mesh.ts';
import { add, cross, minus, type Point3, times, unit } from './space.ts';

/** Closed solid from rings of equal length, one above the other, with flat ends. */
export function lofted(rings: readonly (readonly Point3[])[]): Mesh {
  const n = rings[0]!.length;
  const points: number[] = [];
  const triangles: number[] = [];
  for (const ring of rings) for (const p of ring) points.push(...p);
  for (let r = 0; r + 1 < rings.length; r++)
    for (let i = 0; i < n; i++) {
      const [a, b] = [r * n + i, r * n + ((i + 1) % n)];
      triangles.push(a, b, a + n, b, b + n, a + n);
    }
  for (const [r, flip] of [
    [0, true],
    [rings.length - 1, false],
  ] as const) {
    const middle = rings[r]!.reduce<Point3>((s, p) => add(s, times(p, 1 / n)), [0, 0, 0]);
    const centre = points.length / 3;
    points.push(...middle);
    for (let i = 0; i < n; i++) {
      const [a, b] = [r * n + i, r * n + ((i + 1) % n)];
      triangles.push(...(flip ? [centre, b, a] : [centre, a, b]));
    }
  }
  return outward({ points: Float64Array.from(points), triangles: Uint32Array.from(triangles) });
}

/** Outline in the x-y plane between two heights. */
export const plate = (outline: readonly (readonly [number, number])[], z0: number, z1: number): Mesh =>
  lofted([z0, z1].map((z) => outline.map(([x, y]): Point3 => [x, y, z])));

export const block = (low: Point3, high: Point3): Mesh =>
  plate(
    [
      [low[0], low[1]],
      [high[0], low[1]],
      [high[0], high[1]],
      [low[0], high[1]],
    ],
    low[2],
    high[2],
  );

/** Round rod along a line of points, with a radius at each. */
export function rod(line: readonly Point3[], radii: readonly number[], sides = 24): Mesh {
  const rings = line.map((p, i) => {
    const along = unit(minus(line[Math.min(i + 1, line.length - 1)]!, line[Math.max(i - 1, 0)]!));
    const help: Point3 = Math.abs(along[0]) < 0.7 ? [1, 0, 0] : [0, 1, 0];
    const u = unit(cross(along, help));
    const v = cross(along, u);
    return Array.from({ length: sides }, (_, k): Point3 => {
      const a = (2 * Math.PI * k) / sides;
      return add(p, add(times(u, radii[i]! * Math.cos(a)), times(v, radii[i]! * Math.sin(a))));
    });
  });
  return lofted(rings);
}

/** Ellipsoid with the given half-axes. */
export function ellipsoid(centre: Point3, half: Point3, steps = 32): Mesh {
  const rings: Point3[][] = [];
  for (let r = 0; r <= steps; r++) {
    const t = -Math.PI / 2 + (Math.PI * Math.min(Math.max(r, 0.02), steps - 0.02)) / steps;
    rings.push(
      Array.from({ length: 2 * steps }, (_, k): Point3 => {
        const a = (Math.PI * k) / steps;
        return [
          centre[0] + half[0] * Math.cos(t) * Math.cos(a),
          centre[1] + half[1] * Math.cos(t) * Math.sin(a),
          centre[2] + half[2] * Math.sin(t),
        ];
      }),
    );
  }
  return lofted(rings);
}

/** A shell of metal between an outer and an inner line of equal length, drawn at several widths x and joined. */
export function shell(
  slices: readonly { readonly outer: readonly Point3[]; readonly inner: readonly Point3[] }[],
): Mesh {
  const n = slices[0]!.outer.length;
  const ring = (s: (typeof slices)[number]) => [...s.outer, ...[...s.inner].reverse()];
  const points = slices.flatMap(ring).flat();
  const triangles: number[] = [];
  const m = 2 * n;
  for (let s = 0; s + 1 < slices.length; s++)
    for (let i = 0; i < m; i++) {
      const [a, b] = [s * m + i, s * m + ((i + 1) % m)];
      triangles.push(a, b, a + m, b, b + m, a + m);
    }
  for (const [s, flip] of [
    [0, true],
    [slices.length - 1, false],
  ] as const)
    for (let i = 0; i + 1 < n; i++) {
      const [o0, o1, i0, i1] = [s * m + i, s * m + i + 1, s * m + m - 1 - i, s * m + m - 2 - i];
      triangles.push(...(flip ? [o0, o1, i0, o1, i1, i0].reverse() : [o0, o1, i0, o1, i1, i0]));
    }
  return outward({ points: Float64Array.from(points), triangles: Uint32Array.from(triangles) });
}
