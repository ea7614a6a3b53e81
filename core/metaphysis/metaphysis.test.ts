import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { MetaphysisMap } from '../bone/bone-map.ts';
import type { Cone, Femur, OffsetCoupler, Sleeve, Stem, Tray } from '../catalogue/catalogue.ts';
import { bestFitFirst, cavityIsMeasured, fitCavity } from './fit-cavity.ts';
import { type JoinedWith, joinParts } from './join-parts.ts';
import { type MetaphysealPart, partsFor } from './metaphyseal-part.ts';

const catalogue = demoCatalogue();

const cavity: MetaphysisMap = {
  cavityWidthMm: 40,
  cavityApMm: 30,
  cavityHeightMm: 25,
  cavityFromPlaneMm: 0,
  wallMm: 4,
  hostContactPct: 70,
};

const cone = (more: Partial<Cone> = {}): MetaphysealPart => ({
  kind: 'cone',
  part: { ref: 'C', name: 'Cone', bone: 'tibia', widthMm: 40, apMm: 30, heightMm: 25, boreMm: 24, sizes: [3], ...more },
});

const sleeve = (more: Partial<Sleeve> = {}): MetaphysealPart => ({
  kind: 'sleeve',
  part: { ref: 'M', name: 'Sleeve', bone: 'tibia', widthMm: 40, apMm: 30, heightMm: 25, sizes: [3], ...more },
});

describe('a part in a measured cavity', () => {
  test('a part of just its size fits', () => {
    expect(fitCavity(cone(), cavity)).toMatchObject({
      verdict: 'fits',
      against: [],
      notKnown: [],
      overMm: { width: 0, ap: 0 },
      wallLeftMm: 4,
      unfilledMm: 0,
    });
  });

  test('META-1 bone is cut until 2 mm of wall are left and no further; without the wall it is not known', () => {
    expect(fitCavity(cone({ widthMm: 44 }), cavity)).toMatchObject({ verdict: 'fits', wallLeftMm: 2 });
    expect(fitCavity(cone({ widthMm: 44.2 }), cavity).verdict).toBe('does-not-fit');
    expect(fitCavity(cone({ apMm: 34.2 }), cavity).against[0]).toContain('front to back');
    const { wallMm: _, ...noWall } = cavity;
    expect(fitCavity(cone({ widthMm: 42 }), noWall)).toMatchObject({ verdict: 'not-known', wallLeftMm: null });
    expect(fitCavity(cone({ widthMm: 38 }), noWall).verdict).toBe('fits');
  });

  test('META-2 a gap of 3 mm on each side may be filled, more may not', () => {
    expect(fitCavity(cone({ widthMm: 34, apMm: 24 }), cavity).verdict).toBe('fits');
    expect(fitCavity(cone({ widthMm: 33.8 }), cavity).against).toEqual([
      'stands 3.1 mm off the wall on each side, side to side: too small',
    ]);
  });

  test('META-3 a bed is cut up to 10 mm deeper; cavity beyond the part is told as room for graft', () => {
    expect(fitCavity(cone({ heightMm: 35 }), cavity)).toMatchObject({ verdict: 'fits', unfilledMm: 0 });
    expect(fitCavity(cone({ heightMm: 36 }), cavity).verdict).toBe('does-not-fit');
    const short = fitCavity(cone({ heightMm: 20 }), cavity);
    expect(short).toMatchObject({ verdict: 'fits', unfilledMm: 5 });
    expect(short.lies).toContain('5.0 mm of cavity left beyond it for graft');
  });

  test('META-3 a cone follows the mouth of the cavity; a sleeve hangs from its component and may end before it', () => {
    const deep = { ...cavity, cavityFromPlaneMm: 15 };
    expect(fitCavity(cone(), deep)).toMatchObject({ verdict: 'fits', unfilledMm: 0 });
    expect(fitCavity(cone(), deep).lies).toContain('set 15.0 mm beyond the plane, cement between it and the component');
    // A sleeve of 25 mm reaches 10 mm into a cavity of 25: 15 are left.
    expect(fitCavity(sleeve(), deep)).toMatchObject({ verdict: 'fits', unfilledMm: 15 });
    expect(fitCavity(sleeve(), { ...deep, cavityFromPlaneMm: 25 }).verdict).toBe('does-not-fit');
    const { cavityFromPlaneMm: _, ...noLevel } = cavity;
    expect(fitCavity(sleeve(), noLevel)).toMatchObject({
      verdict: 'not-known',
      notKnown: ["level of the cavity's mouth"],
    });
  });

  test('META-4 under half of host bone it does not fit; not stated, it is not known', () => {
    expect(fitCavity(cone(), { ...cavity, hostContactPct: 49 }).verdict).toBe('does-not-fit');
    expect(fitCavity(cone(), { ...cavity, hostContactPct: 50 }).verdict).toBe('fits');
    const { hostContactPct: _, ...noShare } = cavity;
    expect(fitCavity(cone(), noShare).notKnown).toEqual(['share of the wall that is host bone']);
  });

  test('META-5 one measure excludes it though others are missing; one missing leaves it open', () => {
    expect(fitCavity(cone({ widthMm: 60 }), { cavityWidthMm: 40, wallMm: 4 }).verdict).toBe('does-not-fit');
    expect(fitCavity(cone(), { cavityWidthMm: 40, wallMm: 4 }).verdict).toBe('not-known');
    expect(cavityIsMeasured({})).toBe(false);
    expect(cavityIsMeasured({ cavityHeightMm: 20 })).toBe(false);
    expect(cavityIsMeasured(cavity)).toBe(true);
  });

  test('META-5 best fit first: what fits, by least bone cut and gap', () => {
    const sizes = [40, 50, 38, 44, 33].map((widthMm) => fitCavity(cone({ ref: `C${widthMm}`, widthMm }), cavity));
    expect(bestFitFirst(sizes).map((v) => v.ref)).toEqual(['C40', 'C38', 'C44', 'C33', 'C50']);
    const all = partsFor(catalogue, 'tibia').map((part) => fitCavity(part, cavity));
    const [best] = bestFitFirst(all);
    expect(best?.verdict).toBe('fits');
    expect(bestFitFirst([...all].reverse())).toEqual(bestFitFirst(all));
  });

  test('META-1 a thicker wall, more host bone or a part nearer to the cavity never turns a fit into a misfit', () => {
    const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        mm(20, 60),
        mm(20, 60),
        mm(0, 10),
        mm(0, 100),
        mm(0, 1),
        (widthMm, apMm, wallMm, hostContactPct, nearer) => {
          const at = { ...cavity, wallMm, hostContactPct };
          const before = fitCavity(cone({ widthMm, apMm }), at).verdict;
          if (before !== 'fits') return true;
          const better = { ...at, wallMm: wallMm + 1, hostContactPct: Math.min(100, hostContactPct + 5) };
          const closer = cone({ widthMm: widthMm + nearer * (40 - widthMm), apMm });
          return fitCavity(closer, better).verdict === 'fits';
        },
      ),
    );
  });
});

describe('what it is joined with', () => {
  const find = <T extends { readonly ref: string }>(parts: readonly T[], ref: string): T => {
    const part = parts.find((p) => p.ref === ref);
    if (!part) throw new Error(ref);
    return part;
  };
  const tray: Tray = find(catalogue.trays, 'EX-T3');
  const femur: Femur = find(catalogue.femurs, 'EX-F3R');
  const stem: Stem = find(catalogue.stems, 'EX-SP14-100');
  const coupler: OffsetCoupler = find(catalogue.offsetCouplers, 'EX-O4');
  const onTibia: JoinedWith = { component: { bone: 'tibia', part: tray }, stem, coupler: null, besides: null };
  const onFemur: JoinedWith = { ...onTibia, component: { bone: 'femur', part: femur } };

  test('META-6 sizes, one kind a bone, and a stem', () => {
    expect(joinParts(sleeve(), onTibia).verdict).toBe('joins');
    expect(joinParts(sleeve({ sizes: [1, 2] }), onTibia).against).toEqual(['does not take size 3']);
    expect(joinParts(sleeve({ bone: 'femur' }), onTibia).against).toEqual(['is made for the femur']);
    expect(joinParts(sleeve(), { ...onTibia, besides: 'cone' }).against).toEqual(['never beside a cone in one bone']);
    expect(joinParts(sleeve(), { ...onTibia, stem: null }).against).toEqual(['wants a stem']);
  });

  test('META-7 stem, offset and cement pass the opening of a cone, or do not', () => {
    const femoral = (boreMm: number) => cone({ bone: 'femur', boreMm });
    // 14 + 2 x 2 = 18; with 4 mm of offset 26. The box of 18 mm reaches 16 - 9 = 7 mm in.
    expect(joinParts(femoral(18), onFemur).verdict).toBe('joins');
    expect(joinParts(femoral(17.9), onFemur).against).toHaveLength(2);
    expect(joinParts(femoral(26), { ...onFemur, coupler }).verdict).toBe('joins');
    expect(joinParts(femoral(25.9), { ...onFemur, coupler }).against[0]).toContain('on its offset');
  });

  test('META-7 the box is too wide for an opening only where it reaches into it', () => {
    const thin = { ...stem, diameterMm: 10 };
    const wide = { ...femur, boxWidthMm: 22 };
    const narrow = cone({ bone: 'femur', boreMm: 20 });
    const at = (part: Femur): JoinedWith => ({ ...onFemur, stem: thin, component: { bone: 'femur', part } });
    expect(joinParts(narrow, at(wide)).against[0]).toContain('the box, 22.0 mm wide, reaches 7.0 mm');
    expect(joinParts(narrow, at({ ...wide, boxDepthMm: 9 })).verdict).toBe('joins');
  });

  test('META-7 an opening or a keel of unknown width is not judged', () => {
    const noBore: MetaphysealPart = {
      kind: 'cone',
      part: { ref: 'C', name: 'Cone', bone: 'tibia', widthMm: 40, heightMm: 25, sizes: [3] },
    };
    expect(joinParts(noBore, onTibia)).toMatchObject({ verdict: 'not-known', notKnown: ['inner opening of the cone'] });
    expect(joinParts(cone(), onTibia)).toMatchObject({ verdict: 'not-known', notKnown: ['width of the keel'] });
  });

  test('META-8 a sleeve takes a straight stem unless the catalogue says otherwise', () => {
    expect(joinParts(sleeve(), { ...onTibia, coupler }).verdict).toBe('does-not-join');
    expect(joinParts(sleeve({ takesOffset: true }), { ...onTibia, coupler }).verdict).toBe('joins');
  });
});
