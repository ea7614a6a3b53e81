import { describe, expect, test } from 'vitest';
import { type Beam, onDetector } from './beam.ts';
import { type Mesh, movedMesh } from './mesh.ts';
import { addPathLength, rayLengths } from './path-length.ts';
import { block, ellipsoid } from './solids.ts';
import { cross, dot, length, minus, type Point3, unit } from './space.ts';

const beam: Beam = {
  source: [0, 900, 0],
  centre: [0, -100, 0],
  along: [1, 0, 0],
  down: [0, 0, -1],
  spacingMm: 0.7,
  columns: 150,
  rows: 130,
};

function lengthsOf(mesh: Mesh): Float32Array {
  const sums = new Float32Array(beam.columns * beam.rows);
  addPathLength(beam, mesh, 1, sums);
  const far = rayLengths(beam);
  return sums.map((s, i) => s * far(i % beam.columns, Math.floor(i / beam.columns)));
}

const at = (sums: Float32Array, column: number, row: number) => sums[row * beam.columns + column]!;

/** Chord of a ray in a ball by Pythagoras. */
function chord(column: number, row: number, centre: Point3, radius: number): number {
  const direction = unit(minus(onDetector(beam, column, row), beam.source));
  const to = minus(centre, beam.source);
  const off = length(cross(to, direction));
  return off < radius ? 2 * Math.sqrt(radius ** 2 - off ** 2) : 0;
}

describe('path lengths through closed solids', () => {
  test('a plate 20 mm deep is crossed by 20 mm over the cosine of the ray', () => {
    const sums = lengthsOf(block([-30, -10, -25], [30, 10, 25]));
    for (const [c, r] of [
      [74, 64],
      [60, 70],
      [90, 50],
    ] as const) {
      const direction = unit(minus(onDetector(beam, c, r), beam.source));
      expect(at(sums, c, r)).toBeCloseTo(20 / Math.abs(dot(direction, [0, 1, 0])), 2);
    }
    expect(at(sums, 2, 2)).toBe(0);
  });

  test('a ball is crossed by its chord, to the fineness of its mesh', () => {
    const centre: Point3 = [6, -4, 3];
    const sums = lengthsOf(ellipsoid(centre, [20, 20, 20], 96));
    for (let r = 0; r < beam.rows; r += 7)
      for (let c = 0; c < beam.columns; c += 7) {
        const true_ = chord(c, r, centre, 20);
        if (true_ > 8) expect(at(sums, c, r)).toBeCloseTo(true_, 0.5);
        if (true_ === 0) expect(Math.abs(at(sums, c, r))).toBeLessThan(1e-3);
      }
  });

  test('a mirrored solid weighs the same as itself', () => {
    const ball = ellipsoid([0, 0, 0], [18, 12, 22], 40);
    const mirrored = movedMesh(ball, { m: [-1, 0, 0, 0, 1, 0, 0, 0, 1], shift: [0, 0, 0] });
    const sum = (m: Mesh) => lengthsOf(m).reduce((s, v) => s + v, 0);
    expect(sum(mirrored)).toBeGreaterThan(0);
    expect(sum(mirrored) / sum(ball)).toBeCloseTo(1, 4);
  });

  test('no ray keeps a remainder outside the solid: every closed surface is left as often as it is entered', () => {
    const sums = lengthsOf(ellipsoid([1.3, 2.1, -0.7], [25, 9, 14], 61));
    let stray = 0;
    for (let i = 0; i < sums.length; i++) if (Math.abs(sums[i]!) > 120) stray++;
    expect(stray).toBe(0);
  });
});
