import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { BoneState, StemLimit } from './bone-state.ts';
import type { Construct } from './construct.ts';
import { DEFAULT_WEIGHTS } from './default-weights.ts';
import { describeConstruct } from './describe-construct.ts';
import { easyKnee, plainConstruct } from './easy-knee.ts';
import { effectOf } from './effect.ts';
import { type BoneAsked, fixationsOf, metaphysealParts, zonesShort, zonesWith } from './fixation.ts';
import { ledgerOf } from './ledger.ts';
import { partsOf } from './parts-of.ts';
import { pricesOf } from './price.ts';
import { boneReplacedMm, greatestTrayMm, leastProximalMm, segmentLengthsMm } from './segment.ts';
import { boneFacts, forcedFlexionDeg, stemFor, stemLimit } from './stem-limits.ts';

const catalogue = demoCatalogue();
const prices = pricesOf(DEFAULT_WEIGHTS);
const both = (x: number) => ({ medial: x, lateral: x });
const ledger = (construct: Construct, state: BoneState) =>
  ledgerOf(
    { construct, effect: effectOf(construct, state, catalogue), parts: partsOf(construct, catalogue), state },
    prices,
  );
const amount = (id: string, construct: Construct, state: BoneState) =>
  ledger(construct, state).lines.find((line) => line.id === id)?.amount;

const lost: BoneState = { ...easyKnee, femurClass: '3', femurDistalMm: { medial: 40, lateral: 34 }, mcl: 'absent' };
const distalFemur: Construct = {
  ...plainConstruct,
  level: 'hinge',
  femur: 'EX-DF4',
  femoralSegmentMm: 65,
  insert: 'EX-I4H12',
  femoralStem: 'EX-SP14-100',
  tibialStem: 'EX-SP14-100',
};
const proximalTibia: Construct = {
  ...plainConstruct,
  level: 'hinge',
  tray: 'EX-PT4',
  tibialSegmentMm: 70,
  insert: 'EX-I4H12',
  femoralStem: 'EX-SP14-100',
  tibialStem: 'EX-SP14-100',
  trayMm: -81.5,
};

describe('segments', () => {
  test('GAP-24 by hand: 65 mm on target cuts the shaft at 65, 25 and 31 mm above what is left', () => {
    const effect = effectOf(distalFemur, lost, catalogue);
    expect(effect.femurDistalSpaceMm).toEqual({ medial: -25, lateral: -31 });
    expect(effect.femurPosteriorSpaceMm).toEqual(both(0));
    expect([effect.flangeGapMm, effect.femurOverhangMm]).toEqual([0, 0]);
    expect(boneReplacedMm(effect.femurDistalSpaceMm)).toBe(28);
    expect(leastProximalMm(lost.femurDistalMm, 65)).toBe(-25);
    expect(amount('bone-replaced', distalFemur, lost)).toBe(28);
    // Nothing of it is charged as a cut or as cement of a usual component: the six faces are the tibia's two.
    expect(amount('bone-cut', distalFemur, lost)).toBe(0);
    expect(amount('femur-underhang', distalFemur, lost)).toBe(0);
  });

  test('GAP-24 J moves extension and q flexion as with any femur', () => {
    const moved = effectOf({ ...distalFemur, femurProximalMm: 4, femurAnteriorMm: -3 }, lost, catalogue);
    const still = effectOf(distalFemur, lost, catalogue);
    expect(moved.extensionLaxityMm.medial - still.extensionLaxityMm.medial).toBe(4);
    expect(moved.flexionLaxityMm.medial - still.flexionLaxityMm.medial).toBe(-3);
    expect(moved.femurDistalSpaceMm.medial).toBe(-29);
  });

  test('GAP-25 by hand: 70 mm and an 11.5 mm insert on target cut the tibia at 81.5 mm', () => {
    const state: BoneState = { ...easyKnee, tibiaClass: '3', tibiaMm: { medial: 50, lateral: 45 } };
    const effect = effectOf(proximalTibia, state, catalogue);
    expect(effect.bearingMm).toBe(0);
    expect(effect.tibiaSpaceMm).toEqual({ medial: -31.5, lateral: -36.5 });
    expect(effect.trayOverhangMm).toBe(0);
    expect(amount('bone-replaced', proximalTibia, state)).toBe(34);
    expect(greatestTrayMm(state.tibiaMm)).toBe(-50);
  });

  test('GAP-26 the shaft alone holds a segment: one zone of two is missing, and is charged', () => {
    const facts = boneFacts(lost, 'femur');
    expect(zonesShort(zonesWith(facts, { stem: true, metaphyseal: false, segment: true }))).toBe(1);
    expect(zonesShort(zonesWith(facts, { stem: false, metaphyseal: false, segment: true }))).toBe(2);
    expect(amount('zones', distalFemur, lost)).toBe(1);
  });

  test('GAP-26 a segment takes a stem always, and no cone or sleeve', () => {
    const asked = ask({ segment: true, ...metaphysealParts({ bone: 'femur', size: 4, boxWidthMm: 0 }, knee(lost)) });
    const ways = fixationsOf(asked, lost, prices);
    expect(ways.map((w) => [w.stem !== null, w.cone, w.sleeve])).toEqual([[true, null, null]]);
    expect(fixationsOf({ ...asked, stem: null }, lost, prices)).toEqual([]);
  });

  test('GAP-24 its lengths are its own and that with each piece between', () => {
    expect(segmentLengthsMm({ ...catalogue.segments![0]!, replacesMm: 65, stepsMm: [40, 30, 30] })).toEqual([
      65, 95, 105,
    ]);
  });

  test('it is named with its length', () => {
    const line = describeConstruct(distalFemur, catalogue).find((l) => l.ref === 'EX-DF4');
    expect(line).toMatchObject({ where: 'femur, 65 mm from the joint surface to the cut', amount: 1 });
    const tibia = describeConstruct(proximalTibia, catalogue).find((l) => l.ref === 'EX-PT4');
    expect(tibia?.where).toBe('tibia, 70 mm from the insert to the cut');
  });
});

const knee = (state: BoneState, system = catalogue) => ({ state, catalogue: system });
const stem = stemFor({ bone: 'femur', level: 'ps' }, knee(easyKnee), prices['stem-conflict']);
const ask = (change: Partial<BoneAsked>): BoneAsked => ({
  bone: 'femur',
  level: 'ps',
  augments: 1,
  offsetCoupler: false,
  stem,
  cones: [],
  sleeves: [],
  segment: false,
  stemsDemanded: true,
  zonesDemanded: true,
  ...change,
});
const twoB: BoneState = { ...easyKnee, femurClass: '2B', tibiaClass: '2B' };

describe('sleeves and cones', () => {
  const parts = metaphysealParts({ bone: 'femur', size: 4, boxWidthMm: 20 }, knee(twoB));

  test('GAP-27 a sleeve gives the second zone as a cone does, with a stem, and never beside one', () => {
    const ways = fixationsOf(ask(parts), twoB, prices);
    expect(ways.map((w) => [w.cone?.ref ?? null, w.sleeve?.ref ?? null])).toEqual([
      ['EX-CFM', null],
      [null, 'EX-MF2'],
    ]);
    for (const way of ways) expect(way.stem).not.toBeNull();
    expect(fixationsOf(ask({ ...parts, stem: null }), twoB, prices)).toEqual([]);
    const withSleeve = { ...plainConstruct, femoralSleeve: 'EX-MF2', femoralStem: 'EX-SP14-75' };
    expect([amount('sleeve', withSleeve, twoB), amount('cone', withSleeve, twoB)]).toEqual([1, 0]);
  });

  test('sleeves are named where they stand', () => {
    const construct = { ...plainConstruct, femoralSleeve: 'EX-MF3', tibialSleeve: 'EX-MT3', femoralStem: 'EX-SP14-75' };
    const lines = describeConstruct(construct, catalogue).filter((l) => l.where.endsWith('metaphysis'));
    expect(lines.map((l) => [l.ref, l.where])).toEqual([
      ['EX-MT3', 'tibia, metaphysis'],
      ['EX-MF3', 'femur, metaphysis'],
    ]);
  });

  test('GAP-27 behind a sleeve no offset coupler, unless its catalogue says so', () => {
    const sleeves = parts.sleeves;
    expect(fixationsOf(ask({ sleeves, offsetCoupler: true }), twoB, prices)).toEqual([]);
    const flagged = sleeves.map((s) => ({ ...s, takesOffset: true }));
    expect(fixationsOf(ask({ sleeves: flagged, offsetCoupler: true }), twoB, prices)).toHaveLength(1);
  });

  test('GAP-29 where the cavity was measured only what fits comes into question', () => {
    const cavity = [
      { ref: 'EX-CFM', fits: false, reasons: ['8 mm wider than the cavity'] },
      { ref: 'EX-MF3', fits: true, reasons: [] },
    ];
    const fitted = metaphysealParts({ bone: 'femur', size: 4, boxWidthMm: 20 }, knee({ ...twoB, femurCavity: cavity }));
    expect([fitted.cones.map((c) => c.ref), fitted.sleeves.map((s) => s.ref)]).toEqual([[], ['EX-MF3']]);
    // The other bone was not measured: all that go with the size.
    expect(metaphysealParts({ bone: 'tibia', size: 4, boxWidthMm: 0 }, knee(twoB)).cones).toHaveLength(1);
  });

  test('GAP-29 an opening narrower than the box or the stem is refused; one that is not stated is not judged', () => {
    const bored = (boreMm: number | undefined) => {
      const cones = (catalogue.cones ?? []).map(({ boreMm: _own, ...c }) =>
        boreMm === undefined ? c : { ...c, boreMm },
      );
      return { ...catalogue, cones };
    };
    const conesWith = (boreMm: number | undefined, boxWidthMm: number) =>
      metaphysealParts({ bone: 'femur', size: 4, boxWidthMm }, knee(twoB, bored(boreMm))).cones;
    expect(conesWith(19, 20)).toEqual([]);
    expect(conesWith(20, 20)).toHaveLength(1);
    expect(conesWith(undefined, 20)).toHaveLength(1);
    // The stem of 14 mm does not pass an opening of 13 mm.
    expect(fixationsOf(ask({ cones: conesWith(13, 0) }), twoB, prices)).toEqual([]);
    expect(fixationsOf(ask({ cones: conesWith(14, 0) }), twoB, prices)).toHaveLength(1);
  });

  test('GAP-19 a cone in a cavity that was not measured is listed, not charged', () => {
    const construct = { ...plainConstruct, femoralCone: 'EX-CFM', femoralStem: 'EX-SP14-75' };
    expect(ledger(construct, twoB).unknown.map((u) => u.id)).toContain('cavity');
    const measured = { ...twoB, femurCavity: [{ ref: 'EX-CFM', fits: true, reasons: [] }] };
    expect(ledger(construct, measured).unknown.map((u) => u.id)).not.toContain('cavity');
  });
});

describe('stems in a measured canal', () => {
  const limit = (ref: string, sagittal: number | null, passes = true): StemLimit => ({
    ref,
    passes,
    longestPassingMm: 120,
    forcedTiltDeg: { coronal: 0, sagittal },
  });
  const chosen = (limits: readonly StemLimit[]) =>
    stemFor({ bone: 'femur', level: 'ps' }, knee({ ...easyKnee, femoralStemLimits: limits }), prices['stem-conflict'])
      ?.stem.ref ?? null;

  test('GAP-28 only stems that were tried and pass; without a measured canal as STM-2 and STM-3 say', () => {
    expect(stem?.stem.ref).toBe('EX-SP14-75');
    expect(chosen([limit('EX-SP14-75', 0, false), limit('EX-SP13-75', 0)])).toBe('EX-SP13-75');
    expect(chosen([limit('EX-SP14-75', 0, false)])).toBeNull();
  });

  test('GAP-28 tilt within the free zone does not count, beyond it the stem of least conflict is taken', () => {
    expect(chosen([limit('EX-SP14-75', 1.9), limit('EX-SP13-75', 0)])).toBe('EX-SP14-75');
    expect(chosen([limit('EX-SP14-75', 4), limit('EX-SP13-75', 3), limit('EX-SP12-75', 3)])).toBe('EX-SP13-75');
  });

  test('GAP-28 the forced tilt beyond 2 degrees is charged in each view', () => {
    const limits = [{ ...limit('EX-SP14-75', 5), forcedTiltDeg: { coronal: -3, sagittal: 5 } }];
    const state = { ...easyKnee, femoralStemLimits: limits };
    const construct = { ...plainConstruct, femoralStem: 'EX-SP14-75', femoralFlexionDeg: 5 };
    expect(amount('stem-conflict', construct, state)).toBe(3 + 1);
    expect(forcedFlexionDeg(state, 'EX-SP14-75')).toBe(5);
    expect(forcedFlexionDeg(state, null)).toBe(0);
    expect(stemLimit(state, 'tibia', 'EX-SP14-75')).toBeNull();
  });

  test('GAP-19 a stem in a canal whose walls are not known, or in one view only, is listed', () => {
    const construct = { ...plainConstruct, femoralStem: 'EX-SP14-75' };
    const unknown = (state: BoneState) => ledger(construct, state).unknown.map((u) => u.id);
    expect(unknown(easyKnee)).toContain('stem-conflict');
    expect(unknown({ ...easyKnee, femoralStemLimits: [limit('EX-SP14-75', null)] })).toContain('stem-conflict');
    expect(unknown({ ...easyKnee, femoralStemLimits: [limit('EX-SP14-75', 0)] })).not.toContain('stem-conflict');
  });
});
