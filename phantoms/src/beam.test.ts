import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Beam, coarser, magnificationAt, onDetector, projected } from './beam.ts';
import { sphereOutline } from './landmarks.ts';
import type { Scene } from './scene.ts';

/** Source 1000 mm in front of the knee, detector 150 mm behind it: SID 1150, OID 150. */
const beam: Beam = {
  source: [0, 1000, 0],
  centre: [0, -150, 0],
  along: [1, 0, 0],
  down: [0, 0, -1],
  spacingMm: 0.5,
  columns: 401,
  rows: 301,
};

describe('the beam is a pinhole', () => {
  test('a point 10 mm to the left and 20 mm up, worked by hand', () => {
    // Thales: 10 x 1150 / 1000 = 11.5 mm, 20 x 1.15 = 23 mm; the middle pixel is (200, 150).
    expect(projected(beam, [10, 0, 20])).toEqual({ x: 200 + 11.5 / 0.5, y: 150 - 23 / 0.5 });
  });

  test('SID 1150 and OID 150 magnify 1.15 times; 10 mm nearer to the source 1.010 % more', () => {
    // The published worked figure for this set-up: 15.3 % was measured on knee films (n = 80), 1.0 % a centimetre.
    expect(magnificationAt(beam, [0, 0, 0])).toBeCloseTo(1.15, 12);
    expect(magnificationAt(beam, [0, 10, 0]) / 1.15).toBeCloseTo(1.0101, 4);
  });

  test('a pixel and the ray through it are inverse to each other', () => {
    const mm = fc.double({ min: -60, max: 60, noNaN: true });
    fc.assert(
      fc.property(mm, mm, mm, (x, y, z) => {
        const p = projected(beam, [x, y, z]);
        const hit = onDetector(beam, p.x, p.y);
        const k = 1150 / (1000 - y);
        expect(hit[0]).toBeCloseTo(x * k, 8);
        expect(hit[2]).toBeCloseTo(z * k, 8);
      }),
    );
  });

  test('a coarser detector sees the same place', () => {
    const low = coarser(beam, 4);
    const p = projected(beam, [13, 5, -21]);
    const q = projected(low, [13, 5, -21]);
    expect(4 * q.x + 1.5).toBeCloseTo(p.x, 9);
    expect(4 * q.y + 1.5).toBeCloseTo(p.y, 9);
  });

  test("a ball's shadow in the middle of the beam is a circle of radius r SID / sqrt(d2 - r2)", () => {
    const outline = sphereOutline({ beam } as Scene, [0, 0, 0], 12.5);
    for (const p of outline)
      expect(Math.hypot(p.x - 200, p.y - 150) * 0.5).toBeCloseTo((12.5 * 1150) / Math.sqrt(1000 ** 2 - 12.5 ** 2), 9);
  });
});
