import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SurfaceLoss } from '../bone/bone-map.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { type MarkedSurface, supportFromMap } from './bone-stock-support.ts';
import { type Known, newBook } from './findings-book.ts';

const level = fc.double({ min: -5, max: 40, noNaN: true });
const sd = fc.option(fc.double({ min: 0.1, max: 4, noNaN: true }), { nil: null });
const known = fc.record({ value: level, sd, from: fc.constant('film') }) as fc.Arbitrary<Known>;
const loss = fc.record(
  {
    depthMm: fc.double({ min: 0, max: 40, noNaN: true }),
    depthSdMm: fc.double({ min: 0, max: 5, noNaN: true }),
    unsupportedPct: fc.double({ min: 0, max: 100, noNaN: true }),
  },
  { requiredKeys: [] },
) as fc.Arbitrary<SurfaceLoss>;
const pair = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<PerCompartment<T>> => fc.record({ medial: one, lateral: one });
const surface: fc.Arbitrary<MarkedSurface> = fc.record({
  label: fc.constant('plateau'),
  field: fc.constant('bone.tibiaMap.plateau'),
  marks: pair(fc.option(known, { nil: null })),
  losses: pair(loss),
  plane: fc.option(known, { nil: null }),
});
const valuesOf = (s: MarkedSurface) => {
  const { medial, lateral } = supportFromMap(newBook(), s);
  return { medial: medial?.value ?? null, lateral: lateral?.value ?? null };
};

describe('supports from the map, any numbers', () => {
  test('PLAN-21 is one of the two readings, never nearer the joint than the mark and never their sum', () => {
    fc.assert(
      fc.property(surface, (s) => {
        const found = valuesOf(s);
        for (const side of ['medial', 'lateral'] as const) {
          const [mark, value] = [s.marks[side], found[side]];
          if (mark === null) expect(value).toBeNull();
          if (mark === null || value === null) continue;
          expect(value).toBeGreaterThanOrEqual(mark.value);
          const marks = [s.marks.medial, s.marks.lateral].flatMap((m) => m?.value ?? []);
          const plane = s.plane?.value ?? Math.min(...marks);
          const readings = [mark.value, plane + (s.losses?.[side]?.depthMm ?? 0)];
          expect(readings.some((r) => Math.abs(r - value) < 1e-9)).toBe(true);
        }
      }),
      { seed: 51 },
    );
  });

  test('PLAN-21 more depth or less support never brings the bone nearer the joint', () => {
    fc.assert(
      fc.property(surface, fc.double({ min: 0, max: 20, noNaN: true }), fc.nat(50), (s, more, share) => {
        const before = s.losses?.medial ?? {};
        const worse: SurfaceLoss = {
          ...before,
          ...(before.depthMm === undefined ? {} : { depthMm: before.depthMm + more }),
          ...(before.unsupportedPct === undefined
            ? {}
            : { unsupportedPct: Math.min(100, before.unsupportedPct + share) }),
        };
        const after = valuesOf({ ...s, losses: { ...s.losses, medial: worse } });
        const [a, b] = [after.medial, valuesOf(s).medial];
        if (a !== null && b !== null) expect(a).toBeGreaterThanOrEqual(b);
      }),
      { seed: 52 },
    );
  });

  test('PLAN-21 medial and lateral are treated alike, and nothing else is touched', () => {
    fc.assert(
      fc.property(surface, (s) => {
        const swap = <T>(p: Partial<PerCompartment<T>> | undefined) => ({ medial: p?.lateral, lateral: p?.medial });
        const swapped = {
          ...s,
          marks: { medial: s.marks.lateral, lateral: s.marks.medial },
          losses: swap(s.losses) as PerCompartment<SurfaceLoss>,
        };
        const [a, b] = [valuesOf(Object.freeze(s)), valuesOf(swapped)];
        expect([b.medial, b.lateral]).toEqual([a.lateral, a.medial]);
      }),
      { seed: 53 },
    );
  });

  test('PLAN-21 a depth without spread never leaves a spread behind that nobody stated', () => {
    fc.assert(
      fc.property(surface, (s) => {
        const book = newBook();
        const found = supportFromMap(book, s);
        for (const side of ['medial', 'lateral'] as const) {
          const [mark, value] = [s.marks[side], found[side]];
          if (!mark || !value || value.value <= mark.value) continue;
          const { depthSdMm } = s.losses?.[side] ?? {};
          if (depthSdMm !== undefined) continue;
          expect(value.sd).toBeNull();
          expect(book.without.map((m) => m.field)).toContain(`bone.tibiaMap.plateau.${side}.depthSdMm`);
        }
      }),
      { seed: 54 },
    );
  });
});
