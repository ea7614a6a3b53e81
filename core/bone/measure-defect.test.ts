import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { point } from '../plane/point.ts';
import { clipToSide } from './clip-outline.ts';
import { type DefectSize, measureDefect } from './measure-defect.ts';

const P = (x: number, y: number) => point('coronal', x, y);
/** Along +x through the origin: what lies above it lies in the bone. */
const PLANE = { through: P(0, 0), along: { frame: 'coronal', x: 1, y: 0 } } as const;
const SURFACE = [P(0, 0), P(40, 0)] as const;
type Corners = readonly (readonly [number, number])[];
const sized = (corners: Corners, surface: typeof SURFACE | null = SURFACE): DefectSize => {
  const size = measureDefect({ outline: corners.map(([x, y]) => P(x, y)), plane: PLANE, surface });
  if (!size.ok) throw new Error(size.reason.code);
  return size.value;
};

describe('size of a drawn defect', () => {
  test('BONE-10 worked by hand: a box 10 wide and 6 deep under a surface of 40', () => {
    const box: Corners = [
      [0, 0],
      [10, 0],
      [10, 6],
      [0, 6],
    ];
    expect(sized(box)).toEqual({ depth: 6, width: 10, height: 6, fromPlane: 0, unsupported: 0.25 });
  });

  test('BONE-10 a wedge 36 wide and 9 deep takes the support of 36 of 40', () => {
    expect(
      sized([
        [0, 0],
        [36, 0],
        [0, 9],
      ]),
    ).toEqual({ depth: 9, width: 36, height: 9, fromPlane: 0, unsupported: 0.9 });
  });

  test('BONE-10 a cyst with a roof of 5 mm takes no support; its distance and height are told', () => {
    expect(
      sized([
        [10, 5],
        [20, 5],
        [20, 17],
        [10, 17],
      ]),
    ).toEqual({
      depth: 17,
      width: 10,
      height: 12,
      fromPlane: 5,
      unsupported: 0,
    });
  });

  test("BONE-10 what was drawn on the joint's side of the plane does not count", () => {
    // A broad top over the metal, a narrow stalk into the bone.
    const funnel: Corners = [
      [-10, -8],
      [30, -8],
      [30, -1],
      [12, -1],
      [12, 7],
      [8, 7],
      [8, -1],
      [-10, -1],
    ];
    expect(sized(funnel)).toMatchObject({ depth: 7, width: 4, unsupported: 0.1 });
  });

  test('BONE-10 two prongs count, the bone between them does not', () => {
    const prongs: Corners = [
      [0, 0],
      [5, 0],
      [5, 8],
      [15, 8],
      [15, 0],
      [20, 0],
      [20, 10],
      [0, 10],
    ];
    expect(sized(prongs)).toMatchObject({ depth: 10, width: 20, unsupported: 0.25 });
  });

  test('BONE-10 only the part under the surface takes its support', () => {
    expect(
      sized([
        [30, 0],
        [60, 0],
        [60, 6],
        [30, 6],
      ]),
    ).toMatchObject({ width: 30, unsupported: 0.25 });
    expect(
      sized(
        [
          [0, 0],
          [10, 0],
          [10, 6],
        ],
        null,
      ).unsupported,
    ).toBeNull();
  });

  test('BONE-10 refuses too few corners, no numbers, and an outline before the plane', () => {
    const refused = (corners: Corners) => {
      const size = measureDefect({ outline: corners.map(([x, y]) => P(x, y)), plane: PLANE, surface: SURFACE });
      return size.ok ? 'measured' : size.reason.code;
    };
    expect(
      refused([
        [0, 0],
        [5, 5],
      ]),
    ).toBe('outline-too-short');
    expect(
      refused([
        [0, 0],
        [5, Number.NaN],
        [1, 1],
      ]),
    ).toBe('not-a-finite-number');
    expect(
      refused([
        [0, -1],
        [5, -1],
        [5, -6],
      ]),
    ).toBe('defect-before-the-plane');
    expect(
      refused([
        [0, 0],
        [5, 0],
        [9, 0],
      ]),
    ).toBe('defect-before-the-plane');
  });

  // No corner on the plane itself, nor on the floor of the open layer: there a turned drawing may fall to either side.
  const off = (least: number, most: number) =>
    fc.integer({ min: 10 * least, max: 10 * most }).map((i) => (i + 0.5) / 10);
  const outline = fc.array(fc.tuple(off(-20, 60), off(-10, 30)), { minLength: 3, maxLength: 9 });

  test('BONE-10 the share agrees with a fine raster of the same outline (even-odd rule)', () => {
    const inside = (corners: Corners, x: number, y: number) =>
      corners.reduce((odd, [ax, ay], i) => {
        const [bx, by] = corners[(i + 1) % corners.length] ?? [0, 0];
        return ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax) ? !odd : odd;
      }, false);
    // Outlines that do not cross themselves: corners in order round a middle.
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 2, max: 18, noNaN: true }), { minLength: 5, maxLength: 9 }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: -6, max: 8, noNaN: true }),
        (radii, x0, y0) => {
          const corners: Corners = radii.map((r, i) => {
            const turn = (2 * Math.PI * i) / radii.length;
            return [x0 + r * Math.cos(turn), y0 + r * Math.sin(turn)];
          });
          fc.pre(Math.max(...corners.map(([, y]) => y)) > 0.5);
          const [columns, rows] = [200, 40];
          let open = 0;
          for (let i = 0; i < columns; i++) {
            const x = (40 * (i + 0.5)) / columns;
            for (let j = 0; j < rows; j++)
              if (inside(corners, x, (2 * (j + 0.5)) / rows)) {
                open++;
                break;
              }
          }
          expect(Math.abs((sized(corners).unsupported ?? -1) - open / columns)).toBeLessThan(0.03);
        },
      ),
      { numRuns: 80, seed: 11 },
    );
  });

  test('BONE-10 turns, moves and grows with its drawing; the share does not change', () => {
    fc.assert(
      fc.property(
        outline,
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (corners, deg, k) => {
          fc.pre(Math.max(...corners.map(([, y]) => y)) > 0.1);
          const before = sized(corners);
          const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
          const to = (x: number, y: number) => P(k * (x * c - y * s) + 7, k * (x * s + y * c) - 3);
          const after = measureDefect({
            outline: corners.map(([x, y]) => to(x, y)),
            plane: { through: to(0, 0), along: { frame: 'coronal', x: c, y: s } },
            surface: [to(0, 0), to(40, 0)],
          });
          if (!after.ok) throw new Error(after.reason.code);
          expect(after.value.depth).toBeCloseTo(k * before.depth, 6);
          expect(after.value.width).toBeCloseTo(k * before.width, 6);
          expect(after.value.unsupported ?? -1).toBeCloseTo(before.unsupported ?? -2, 6);
        },
      ),
      { numRuns: 60, seed: 12 },
    );
  });

  test('BONE-10 a larger outline is never shallower, narrower or better supported', () => {
    fc.assert(
      fc.property(outline, (corners) => {
        fc.pre(Math.max(...corners.map(([, y]) => y)) > 0.1);
        const hull: Corners = [
          [Math.min(...corners.map(([x]) => x)), Math.min(...corners.map(([, y]) => y))],
          [Math.max(...corners.map(([x]) => x)), Math.min(...corners.map(([, y]) => y))],
          [Math.max(...corners.map(([x]) => x)), Math.max(...corners.map(([, y]) => y))],
          [Math.min(...corners.map(([x]) => x)), Math.max(...corners.map(([, y]) => y))],
        ];
        const [small, large] = [sized(corners), sized(hull)];
        expect(large.depth).toBeGreaterThanOrEqual(small.depth - 1e-9);
        expect(large.width).toBeGreaterThanOrEqual(small.width - 1e-9);
        expect(large.unsupported ?? 0).toBeGreaterThanOrEqual((small.unsupported ?? 0) - 1e-9);
      }),
      { numRuns: 60, seed: 13 },
    );
  });

  test('BONE-10 a drawing over both sides is cut at the middle of the knee', () => {
    const box = [P(-10, 0), P(30, 0), P(30, 6), P(-10, 6)];
    const lateral = measureDefect({ outline: clipToSide(box, SURFACE, PLANE), plane: PLANE, surface: SURFACE });
    const medial = [P(0, 0), P(-40, 0)] as const;
    const other = measureDefect({ outline: clipToSide(box, medial, PLANE), plane: PLANE, surface: medial });
    if (!lateral.ok || !other.ok) throw new Error('not measured');
    expect([lateral.value.width, lateral.value.unsupported]).toEqual([30, 0.75]);
    expect([other.value.width, other.value.unsupported]).toEqual([10, 0.25]);
    expect(clipToSide([P(-9, 1), P(-5, 1), P(-5, 4)], SURFACE, PLANE)).toEqual([]);
  });
});
