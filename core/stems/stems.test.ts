import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { chooseStem, stemLooseMm } from './choose-stem.ts';
import { stemDemands } from './stem-demand.ts';
import { type CanalSection, longestStraightStemMm, straightStem } from './straight-stem.ts';

const catalogue = demoCatalogue();
const bare = { augments: 0, cone: false, boneClass: '1', level: 'ps', offsetCoupler: false } as const;

/** A canal of one width, bowed to a radius, by its parabola. */
const bowed = (radiusMm: number, widthMm: number, lengthMm: number, stepMm = 0.5): CanalSection[] =>
  Array.from({ length: Math.round(lengthMm / stepMm) + 1 }, (_, i) => {
    const zMm = i * stepMm;
    const centre = zMm ** 2 / (2 * radiusMm);
    return { zMm, lowMm: centre - widthMm / 2, highMm: centre + widthMm / 2 };
  });

describe('where a stem is demanded', () => {
  test('STM-1 each trigger alone demands one, and nothing demands none', () => {
    expect(stemDemands(bare)).toEqual([]);
    expect(stemDemands({ ...bare, augments: 1 })).toEqual(['augment']);
    expect(stemDemands({ ...bare, cone: true })).toEqual(['cone']);
    expect(stemDemands({ ...bare, boneClass: '2A' })).toEqual(['bone loss of type 2A']);
    expect(stemDemands({ ...bare, level: 'vvc' })).toEqual(['added constraint']);
    expect(stemDemands({ ...bare, offsetCoupler: true })).toEqual(['offset coupler']);
  });
});

describe('which stem', () => {
  const wanted = { bone: 'femur', canalMm: 14.2, boneClass: '2A', quality: 'good', level: 'ps' } as const;

  test('STM-2 press-fit takes the canal, cemented leaves its mantle', () => {
    expect(chooseStem(wanted, catalogue.stems)?.stem).toMatchObject({
      fixation: 'press-fit',
      diameterMm: 14,
      lengthMm: 75,
    });
    const cemented = chooseStem({ ...wanted, quality: 'osteoporotic' }, catalogue.stems);
    expect(cemented?.stem).toMatchObject({ fixation: 'cemented', diameterMm: 10, lengthMm: 50 });
    expect(cemented?.looseMm).toBe(0);
  });

  test('STM-2 a canal wider than every press-fit stem counts as loose by what is missing', () => {
    const found = chooseStem({ ...wanted, canalMm: 27 }, catalogue.stems);
    expect(found?.stem.diameterMm).toBe(24);
    expect(found?.looseMm).toBeCloseTo(2.5, 12);
  });

  test('STM-2 a canal too narrow for all has no stem; one not measured has a place holder whose fit is not known', () => {
    expect(chooseStem({ ...wanted, canalMm: 9 }, catalogue.stems)).toBeNull();
    const holder = chooseStem({ ...wanted, canalMm: null }, catalogue.stems);
    expect(holder?.stem).toMatchObject({ fixation: 'cemented', diameterMm: 10 });
    expect(holder?.looseMm).toBeNull();
    expect(stemLooseMm(holder!.stem, null)).toBeNull();
  });

  test('STM-2 a stem measured in its own stretch of the canal goes by that, not by the one diameter of the canal', () => {
    const measured = new Map([
      ['EX-SP18-75', 0],
      ['EX-SP14-75', 3.5],
    ]);
    const asked = { ...wanted, canalMm: 11, measured };
    expect(chooseStem(asked, catalogue.stems)).toMatchObject({ stem: { ref: 'EX-SP18-75' }, looseMm: 0 });
    const without = { ...catalogue, stems: catalogue.stems.filter((s) => s.ref !== 'EX-SP18-75' && s.diameterMm > 11) };
    expect(chooseStem(asked, without.stems)).toMatchObject({ stem: { ref: 'EX-SP14-75' }, looseMm: 3.5 });
  });

  test('STM-2 a stem whose fit was measured comes before a place holder, of the other fixation too', () => {
    const asked = { ...wanted, quality: 'osteoporotic', canalMm: null } as const;
    expect(chooseStem(asked, catalogue.stems)).toMatchObject({ stem: { fixation: 'cemented' }, looseMm: null });
    const measured = new Map([['EX-SP18-75', 1.5]]);
    const found = chooseStem({ ...asked, measured }, catalogue.stems);
    expect(found).toMatchObject({ stem: { ref: 'EX-SP18-75', fixation: 'press-fit' }, looseMm: 1.5 });
  });

  test('STM-3 class 3 and a hinge want 100 mm', () => {
    expect(chooseStem({ ...wanted, boneClass: '3' }, catalogue.stems)?.stem.lengthMm).toBe(100);
    expect(chooseStem({ ...wanted, level: 'hinge' }, catalogue.stems)?.stem.lengthMm).toBe(100);
  });
});

describe('a straight stem in a bowed canal', () => {
  test('STM-5 hand check: 16 mm bowed to 1000 mm, stem 14 mm: 126 mm, at any sampling', () => {
    for (const step of [0.25, 0.5, 1]) {
      const length = longestStraightStemMm(bowed(1000, 16, 200, step), 14, 20);
      expect(length.ok && length.value).toBeCloseTo(Math.sqrt(8 * 1000 * 2), 0);
    }
  });

  test('STM-5 the law holds for other widths, radii and diameters', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 600, max: 1500, noNaN: true }),
        fc.double({ min: 0.5, max: 4, noNaN: true }),
        (radius, play) => {
          const length = longestStraightStemMm(bowed(radius, 12 + play, 260), 12, 30);
          expect(length.ok && Math.abs(length.value - Math.sqrt(8 * radius * play))).toBeLessThan(0.6);
        },
      ),
      { numRuns: 25 },
    );
  });

  test('STM-4 a straight canal needs no tilt; the clearance is half the play', () => {
    const canal = [0, 50, 100].map((zMm) => ({ zMm, lowMm: -8, highMm: 8 }));
    const fit = straightStem(canal, 14);
    expect(fit).toMatchObject({ ok: true, value: { tiltDeg: 0, startMm: 0, clearanceMm: { low: 1, high: 1 } } });
    expect(fit.ok && fit.value.fill.least).toBeCloseTo(14 / 16, 12);
  });

  test('STM-4 a canal that leans is followed by no more than it forces', () => {
    const canal = [0, 100].map((zMm) => ({ zMm, lowMm: -8 + zMm * 0.05, highMm: 8 + zMm * 0.05 }));
    const fit = straightStem(canal, 14);
    // The play of 2 mm takes 2 of the 5 mm: 3 mm over 100 are forced.
    expect(fit.ok && Math.tan((fit.value.tiltDeg * Math.PI) / 180)).toBeCloseTo(0.03, 12);
  });

  test('STM-4 no finer slope passes, found by trying many', () => {
    const canal = bowed(900, 15, 110, 2);
    const fit = straightStem(canal, 13.2);
    if (!fit.ok) throw new Error(fit.reason.message);
    const passes = (slope: number) => {
      const above = Math.max(...canal.map((s) => s.lowMm + 6.6 - slope * s.zMm));
      const below = Math.min(...canal.map((s) => s.highMm - 6.6 - slope * s.zMm));
      return above <= below + 1e-9;
    };
    const least = Math.tan((fit.value.tiltDeg * Math.PI) / 180);
    expect(passes(least)).toBe(true);
    for (let slope = -least + 1e-4; slope < least - 1e-4; slope += 1e-4) expect(passes(slope)).toBe(false);
  });

  test('STM-4 what cannot be is refused: too wide, too few sections, out of order', () => {
    const canal = bowed(1000, 16, 100, 10);
    expect(straightStem(canal, 17).ok).toBe(false);
    expect(straightStem(canal.slice(0, 1), 10).ok).toBe(false);
    expect(straightStem([...canal].reverse(), 10).ok).toBe(false);
    expect(straightStem(canal, 0).ok).toBe(false);
    expect(longestStraightStemMm(canal, 17, 5).ok).toBe(false);
    expect(longestStraightStemMm(canal, 10, 5)).toMatchObject({ ok: true, value: 100 });
  });
});
