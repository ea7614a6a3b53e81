import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { Catalogue, OffsetCoupler } from '../catalogue/catalogue.ts';
import type { BoneState, StemLimit } from './bone-state.ts';
import { constructChanges } from './construct-changes.ts';
import { DEFAULT_WEIGHTS } from './default-weights.ts';
import { describeConstruct } from './describe-construct.ts';
import { easyKnee } from './easy-knee.ts';
import { openSolver } from './many/open-solver.ts';
import { solve } from './solve.ts';
import { couplerGoes, trayPlace } from './tray-place.ts';

const catalogue = demoCatalogue();
const coupler = (offsetMm: number): OffsetCoupler => ({
  ref: `O${offsetMm}`,
  name: 'coupler',
  bone: 'tibia',
  offsetMm,
  addedLengthMm: 20,
});
const limit = (offset: StemLimit['offset'], mostAddedMm: number | null = null): StemLimit => ({
  ref: 'S',
  passes: true,
  longestPassingMm: null,
  forcedTiltDeg: { coronal: 0, sagittal: 0 },
  offset: offset ?? null,
  mostAddedMm,
});

/** The easy knee with a tibia that wants a stem, which the canal carries so far off the middle. */
const knee = (offset: StemLimit['offset'], more: Partial<StemLimit> = {}): BoneState => ({
  ...easyKnee,
  tibiaClass: '2A',
  tibialStemLimits: catalogue.stems.map(({ ref }) => ({ ...limit(offset), ...more, ref, looseMm: 0 })),
});

function answer(state: BoneState, of: Catalogue = catalogue) {
  const result = solve({ state, catalogue: of, weights: DEFAULT_WEIGHTS });
  if (result.kind !== 'solved') throw new Error(result.kind);
  return result.answer;
}
const line = (solved: ReturnType<typeof answer>['best'], id: string) => solved.ledger.find((l) => l.id === id);
const couplerOf = (c: { readonly tibialOffset?: string | null }) =>
  catalogue.offsetCouplers.find((o) => o.ref === c.tibialOffset)?.offsetMm ?? null;

describe('where stem and coupler set the tray', () => {
  test('GAP-31 by hand: 3 and 4 mm needed, a coupler of 4 mm leaves a fifth, one of 6 mm goes a fifth beyond', () => {
    const needed = limit({ lateralMm: -3, anteriorMm: -4 });
    expect(trayPlace(needed, null)).toEqual({ lateralMm: 3, anteriorMm: 4 });
    expect(trayPlace(needed, coupler(4))?.lateralMm).toBeCloseTo(0.6, 12);
    expect(trayPlace(needed, coupler(4))?.anteriorMm).toBeCloseTo(0.8, 12);
    expect(trayPlace(needed, coupler(6))?.lateralMm).toBeCloseTo(-0.6, 12);
  });

  test('GAP-31 what is left is the difference of need and offset, along one line with the need', () => {
    const mm = fc.double({ min: -9, max: 9, noNaN: true });
    fc.assert(
      fc.property(mm, mm, fc.constantFrom(2, 4, 6), (lateralMm, anteriorMm, offsetMm) => {
        const need = Math.hypot(lateralMm, anteriorMm);
        fc.pre(need >= 0.5);
        const place = trayPlace(limit({ lateralMm, anteriorMm }), coupler(offsetMm));
        expect(Math.hypot(place?.lateralMm ?? 0, place?.anteriorMm ?? 0)).toBeCloseTo(Math.abs(need - offsetMm), 9);
        expect((place?.lateralMm ?? 0) * anteriorMm).toBeCloseTo((place?.anteriorMm ?? 0) * lateralMm, 9);
      }),
    );
  });

  test('GAP-31 without a coupler the tray that the canal carries aside overhangs by as much', () => {
    const none = { ...catalogue, offsetCouplers: [] };
    const over = answer(knee({ lateralMm: -2, anteriorMm: 0 }), none).best;
    const middle = answer(knee({ lateralMm: 0, anteriorMm: 0 }), none).best;
    expect(over.effect.trayPlace).toEqual({ lateralMm: 2, anteriorMm: 0 });
    const { trayOverhangMm } = over.effect;
    expect(line(over, 'tray-overhang')?.amount).toBeCloseTo(Math.max(0, trayOverhangMm + 2), 9);
    expect(over.cost).toBeGreaterThan(middle.cost);
  });

  test('GAP-31 front to back the tray is free within 3 mm and charged beyond', () => {
    const none = { ...catalogue, offsetCouplers: [] };
    const front = (mm: number) =>
      line(answer(knee({ lateralMm: 0, anteriorMm: -mm }), none).best, 'tray-front-back')?.amount ?? Number.NaN;
    expect([front(2.5), front(3), front(6)].map((x) => Number(x.toFixed(9)))).toEqual([0, 0, 3]);
  });
});

describe('the coupler under the tray is a choice', () => {
  test('GAP-32 the usual anatomy, canal 3.4 mm lateral and 6.2 mm anterior (50 MRI), takes a coupler and names it everywhere', () => {
    const state = knee({ lateralMm: -3.4, anteriorMm: -6.2 });
    const { best, alternatives } = answer(state);
    expect(couplerOf(best.construct)).toBe(6);
    expect(line(best, 'offset-coupler')?.amount).toBe(1);
    expect(describeConstruct(best.construct, catalogue).map((l) => l.where)).toContain(
      'tibia, between tray and stem, offset towards the middle of the bone',
    );
    const straight = alternatives.find((a) => a.differs.includes('no tibial offset coupler'));
    if (straight) {
      expect(straight.cost).toBeGreaterThan(best.cost);
      expect(straight.construct.tibialOffset).toBeUndefined();
      expect(constructChanges(best.construct, straight.construct, catalogue)).toContain(
        'No tibial offset coupler 6 mm',
      );
    }
    expect(openSolver({ catalogue, weights: DEFAULT_WEIGHTS }).least(state)?.construct).toEqual(best.construct);
  });

  test('GAP-32 no coupler where less than half a millimetre is needed, where the canal does not take its length, for another size or bone', () => {
    const six = coupler(6);
    const wide = { lateralMm: -6, anteriorMm: 0 };
    expect(couplerGoes(six, 4, limit(wide))).toBe(true);
    expect(couplerGoes(six, 4, limit(wide, 20))).toBe(true);
    expect(couplerGoes(six, 4, limit(wide, 19.9))).toBe(false);
    expect(couplerGoes({ ...six, sizes: [3] }, 4, limit(wide))).toBe(false);
    expect(couplerGoes({ ...six, bone: 'femur' }, 4, limit(wide))).toBe(false);
    expect(couplerGoes(six, 4, limit({ lateralMm: -0.3, anteriorMm: 0.3 }))).toBe(false);
    expect(couplerOf(answer(knee({ lateralMm: -2, anteriorMm: -6 }, { mostAddedMm: 10 })).best.construct)).toBeNull();
  });

  test('GAP-32 GAP-27 behind a sleeve only where the sleeve takes an offset', () => {
    const state: BoneState = { ...knee({ lateralMm: -3.4, anteriorMm: -6.2 }), tibiaClass: '2B' };
    const sleeved = (takesOffset: boolean): Catalogue => ({
      ...catalogue,
      cones: [],
      sleeves: (catalogue.sleeves ?? []).map((s) => ({ ...s, takesOffset })),
    });
    expect(answer(state, sleeved(true)).best.construct.tibialSleeve).toBeDefined();
    expect(couplerOf(answer(state, sleeved(true)).best.construct)).toBe(6);
    expect(couplerOf(answer(state, sleeved(false)).best.construct)).toBeNull();
  });

  test('GAP-32 a coupler is never worse than none: with couplers in the catalogue no knee costs more', () => {
    const none = {
      ...catalogue,
      offsetCouplers: catalogue.offsetCouplers.map((c) => ({ ...c, bone: 'femur' as const })),
    };
    for (const lateralMm of [-6, -3, 0, 2])
      for (const anteriorMm of [-8, -4, 1]) {
        const least = (of: Catalogue) =>
          openSolver({ catalogue: of, weights: DEFAULT_WEIGHTS }).least(knee({ lateralMm, anteriorMm }));
        expect(least(catalogue)?.cost).toBeLessThanOrEqual((least(none)?.cost ?? Number.POSITIVE_INFINITY) + 1e-9);
      }
  });

  test('GAP-33 without canal or edges nothing changes, and the place of the tray is told as not known', () => {
    const unknown = answer(knee(null)).best;
    const before = answer(
      { ...knee(null), tibialStemLimits: knee(null).tibialStemLimits ?? [] },
      {
        ...catalogue,
        offsetCouplers: catalogue.offsetCouplers.map((c) => ({ ...c, bone: 'femur' as const })),
      },
    ).best;
    expect(unknown.construct).toEqual(before.construct);
    expect(unknown.cost).toBe(before.cost);
    expect(unknown.effect.trayPlace).toBeNull();
    expect(line(unknown, 'tray-front-back')).toBeUndefined();
    expect(unknown.notKnown?.map((n) => n.id)).toContain('tray-place');
    const half = answer(knee({ lateralMm: -4, anteriorMm: null })).best;
    expect(couplerOf(half.construct)).toBe(4);
    expect(half.notKnown?.find((n) => n.id === 'tray-place')?.label).toContain('front to back');
  });

  test('GAP-33 a knee without a tibial stem misses nothing: its tray is set by hand over the middle', () => {
    const { best } = answer(easyKnee);
    expect(best.construct.tibialStem).toBeNull();
    expect(best.effect.trayPlace).toEqual({ lateralMm: 0, anteriorMm: 0 });
    expect(best.notKnown?.map((n) => n.id)).not.toContain('tray-place');
  });
});
