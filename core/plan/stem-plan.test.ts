import { describe, expect, test } from 'vitest';
import { onFilm, squareKnee } from '../../cases/square-knee.ts';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { Catalogue, Femur } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import type { StemVerdict } from '../stems/judge-stem.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile } from './case.ts';
import { drawConstruct } from './draw-plan.ts';
import { evidenceFor, makePlan } from './make-plan.ts';
import type { DrawnLayer, Plan } from './plan.ts';
import { flexionEffect, slopeEffect, tiltWords } from './stem-plan-gap.ts';
import { cavityFits, cavityVerdicts, stemLimits } from './stem-plan-limits.ts';
import { stemWarnings } from './stem-plan-open.ts';
import { expectedSeats } from './stem-plan-seats.ts';

const catalogue = demoCatalogue();

type XY = readonly [number, number];

/** A canal of the square knee along a middle line, of one width, from 40 to 250 mm off the present joint line. */
function traced(
  bone: 'femur' | 'tibia',
  film: 'long' | 'side',
  { middle, widthMm }: { middle: (h: number) => number; widthMm: number },
) {
  const sign = bone === 'femur' ? 1 : -1;
  const at = (h: number, x: number): XY => [x, sign * h];
  return {
    bone,
    film,
    levels: Array.from({ length: 22 }, (_, i) => {
      const h = 40 + 10 * i;
      return {
        innerA: onFilm(film, at(h, middle(h) - widthMm / 2)),
        innerB: onFilm(film, at(h, middle(h) + widthMm / 2)),
      };
    }),
  };
}

/** Canals that follow the planned stems: 6 degrees of valgus, 14 mm behind the anterior cortex, the middle of the tray. */
const FEMUR_LONG = traced('femur', 'long', {
  middle: (h) => 2 + (h - 20) * Math.tan((6 * Math.PI) / 180),
  widthMm: 15.6,
});
const FEMUR_SIDE = traced('femur', 'side', { middle: () => 30 - 14.5, widthMm: 15.6 });
const TIBIA_LONG = traced('tibia', 'long', { middle: () => 0, widthMm: 15 });
const TIBIA_SIDE = traced('tibia', 'side', { middle: () => 4, widthMm: 15 });

const square = squareKnee();
const knee = (canals: CaseFile['canals'], bone: CaseFile['bone'] = {}): CaseFile => ({
  ...square,
  bone: { ...square.bone, femurClass: '2A', tibiaClass: '2A', ...bone },
  ...(canals ? { canals } : {}),
});
const planOf = (file: CaseFile, from: Catalogue = catalogue): Plan => makePlan(file, from);
const all = knee([FEMUR_LONG, FEMUR_SIDE, TIBIA_LONG, TIBIA_SIDE]);
const plan = planOf(all);

const stateOf = (p: Plan) => {
  if (!p.bone.ok) throw new Error(p.bone.reason.message);
  return p.bone.value.state;
};

describe('stems in the plan', () => {
  test('STM-9 every stem of the catalogue is tried in the measured canal; what passes is left to the solver, and it takes of it', () => {
    const limits = stateOf(plan).femoralStemLimits ?? [];
    const suited = catalogue.stems.filter((s) => s.bone !== 'tibia');
    expect(limits.map((l) => l.ref)).toEqual(suited.map((s) => s.ref));
    expect(limits.filter((l) => l.passes).length).toBe(plan.stems?.femur.tried.passes);
    for (const stem of suited.filter((s) => s.fixation === 'press-fit' && s.diameterMm > 15))
      if (stem.lengthMm > 60) expect(limits.find((l) => l.ref === stem.ref)?.passes).toBe(false);
    if (plan.construct.kind !== 'solved') throw new Error(plan.construct.kind);
    const { femoralStem, tibialStem } = plan.construct.answer.best.construct;
    expect(femoralStem === null || limits.find((l) => l.ref === femoralStem)?.passes).toBe(true);
    expect(tibialStem === null || stateOf(plan).tibialStemLimits?.find((l) => l.ref === tibialStem)?.passes).toBe(true);
  });

  test('STM-15 nothing traced: no limits, one line a bone of what is not known, and the solver goes on as before', () => {
    const bare = planOf(knee(undefined));
    expect(stateOf(bare).femoralStemLimits).toBeUndefined();
    expect(stateOf(bare).tibialStemLimits).toBeUndefined();
    const lines = bare.missing.filter((m) => m.field === 'canals');
    expect(lines.map((m) => m.what)).toEqual([
      'Canal of the femur from in front and from the side',
      'Canal of the tibia from in front and from the side',
    ]);
    expect(bare.stems?.femur).toMatchObject({ ap: null, lateral: null, chosen: null, candidates: [], offered: null });
    expect(bare.construct.kind).toBe('solved');
  });

  test('STM-16 one view traced: stems that pass it are left to the solver, the other view is named', () => {
    const half = planOf(knee([FEMUR_LONG, TIBIA_LONG]));
    expect(half.stems?.femur.tried.passes).toBe(0);
    expect(half.stems?.femur.tried.notKnown).toBeGreaterThan(0);
    expect(stateOf(half).femoralStemLimits?.some((l) => l.passes)).toBe(true);
    expect(half.missing.find((m) => m.field === 'canals')?.what).toBe('Canal of the femur from the side');
  });

  test('STM-6 the isthmus is offered beside what is stated, and changes nothing by itself', () => {
    expect(plan.stems?.femur.offered).toMatchObject({
      field: 'bone.femurCanalMm',
      statedMm: all.bone?.femurCanalMm ?? null,
    });
    expect(Math.abs((plan.stems?.femur.offered?.widthMm ?? 0) - 15.6 * Math.cos((6 * Math.PI) / 180))).toBeLessThan(
      0.05,
    );
    expect(stateOf(plan).femurCanalMm).toBe(all.bone?.femurCanalMm ?? null);
  });

  test('STM-10 the tibial canal 5 mm before the tray: told as such, and the stem wants its offset', () => {
    const before = planOf(knee([TIBIA_LONG, traced('tibia', 'side', { middle: () => 9, widthMm: 12 })]));
    const tibia = before.stems?.tibia;
    expect(tibia?.lateral?.axis?.acrossMm).toBeCloseTo(5, 1);
    const stem = tibia?.candidates.find((v) => v.fixation === 'press-fit');
    expect(stem?.offset?.words).toContain('posterior');
    expect(stem?.offset?.choice.coupler).not.toBeNull();
  });

  test('GAP-32 the canal 5 mm before the tray: the construct takes a coupler, the stems tell that one, and it is drawn', () => {
    const before = planOf(knee([TIBIA_LONG, traced('tibia', 'side', { middle: () => 9, widthMm: 12 })]));
    if (before.construct.kind !== 'solved') throw new Error(before.construct.kind);
    const { construct, effect } = before.construct.answer.best;
    const chosen = before.stems?.tibia.chosen;
    const coupler = catalogue.offsetCouplers.find((c) => c.ref === construct.tibialOffset);
    expect(coupler?.offsetMm).toBe(4);
    expect(chosen?.offset?.choice.coupler?.ref).toBe(coupler?.ref);
    expect(Math.abs(effect.trayPlace?.anteriorMm ?? 9)).toBeLessThan(1.5);
    // The coupler stands between tray and stem: the stem begins as much further down.
    const tray = catalogue.trays.find((t) => t.ref === construct.tray);
    expect(chosen?.seatMm).toBeCloseTo(-construct.trayMm + (tray?.keelMm ?? 0) + (coupler?.addedLengthMm ?? 0), 9);
    const layers = before.drawings.find((d) => d.film === 'side')?.layers ?? [];
    expect(layers.find((l) => l.id === `${coupler?.ref}:tibia`)?.label).toBe(coupler?.name);
    const straight = before.construct.answer.alternatives.find((a) => a.differs.includes('no tibial offset coupler'));
    if (straight) expect(straight.cost).toBeGreaterThan(before.construct.answer.best.cost);
  });

  test('GAP-33 without the edges of the tibia from in front no coupler is judged, and that is told', () => {
    const traces = [TIBIA_LONG, traced('tibia', 'side', { middle: () => 9, widthMm: 12 })];
    const state = stateOf(planOf(knee(traces)));
    expect(state.tibialStemLimits?.every((l) => l.offset !== undefined)).toBe(true);
    expect(state.tibialStemLimits?.some((l) => l.offset)).toBe(true);
    const bare = planOf(knee(all.canals));
    expect(stateOf(bare).femoralStemLimits?.some((l) => l.offset)).toBe(false);
    expect(
      stemLimits(bare.stems?.tibia.candidates ?? [], { middleIsMarkedOn: () => false }).some((l) => l.offset),
    ).toBe(false);
  });

  test('STM-10 a plateau far behind its canal is told as a share of the tray, and warned of with a long stem', () => {
    // 16 mm of a tray about 46 mm deep: over 30 %. As wide a canal as that lets stems pass.
    const far = planOf(knee([TIBIA_LONG, traced('tibia', 'side', { middle: () => 20, widthMm: 15 })]));
    const [share, chosen] = [far.stems?.tibia.lateral?.axisSharePct ?? 0, far.stems?.tibia.chosen];
    expect(share).toBeGreaterThan(30);
    expect(far.conflicts.map((c) => c.code).includes('plateau-behind-canal')).toBe((chosen?.lengthMm ?? 0) >= 60);
    expect(chosen?.lengthMm).toBeGreaterThanOrEqual(60);
    expect(plan.stems?.tibia.lateral?.axisSharePct).toBeCloseTo(0, 0);
  });

  test('STM-13 screw holes that short stems do not pass: those are left out, unless none passes', () => {
    const map = (farEndMm: number) => ({
      tibiaMap: { diaphysis: { outerDiameterMm: 25, weakSpots: [{ kind: 'screw-holes' as const, farEndMm }] } },
    });
    const at = (farEndMm: number) => stateOf(planOf(knee(all.canals, map(farEndMm)))).tibialStemLimits ?? [];
    const lengthOf = (ref: string) => catalogue.stems.find((s) => s.ref === ref)?.lengthMm ?? 0;
    const passing = (limits: ReturnType<typeof at>) => limits.filter((l) => l.passes).map((l) => lengthOf(l.ref));
    expect(Math.min(...passing(at(80)))).toBeGreaterThanOrEqual(80);
    expect(passing(at(400)).length).toBe(passing(at(10)).length);
  });

  test('a refused trace and a tip too near to other metal stand among the conflicts', () => {
    const lost = planOf(knee([{ ...FEMUR_LONG, film: 'lost' }, FEMUR_SIDE]));
    expect(lost.conflicts.map((c) => c.code)).toContain('canal-on-no-film');
    const near = planOf(knee(all.canals, { femurMap: { diaphysis: { otherMetalMm: 150 } } }));
    expect(near.conflicts.map((c) => c.code)).toContain('metal-too-near');
    if (near.stems) expect(stemWarnings(near.stems)).toEqual(near.stems.warnings);
  });

  test('without a catalogue there is no plan of stems', () => {
    expect(makePlan(all, null).stems).toBeUndefined();
  });
});

describe('what is left to the solver', () => {
  const verdict = (ref: string, verdictOf: StemVerdict['verdict'], lengthMm: number, short = false) =>
    ({
      ref,
      verdict: verdictOf,
      lengthMm,
      ap: { longestMm: 180 },
      lateral: { longestMm: 120 },
      looseMm: 0.5,
      component: { coronalDeg: 1, sagittalDeg: null },
      bypass: short ? [{ standing: 'not-met' }] : [],
    }) as unknown as StemVerdict;
  const passing = (...verdicts: StemVerdict[]) =>
    stemLimits(verdicts)
      .filter((l) => l.passes)
      .map((l) => l.ref);

  test('STM-15 not known is allowed only while no stem of 100 mm is known to pass', () => {
    expect(passing(verdict('a', 'passes', 75), verdict('b', 'not-known', 200))).toEqual(['a', 'b']);
    expect(passing(verdict('a', 'passes', 100), verdict('b', 'not-known', 200))).toEqual(['a']);
    expect(passing(verdict('a', 'does-not-pass', 100))).toEqual([]);
  });

  test('STM-15 short of a weak spot is left out unless all are', () => {
    expect(passing(verdict('a', 'passes', 75, true), verdict('b', 'passes', 100))).toEqual(['b']);
    expect(passing(verdict('a', 'passes', 75, true), verdict('b', 'passes', 100, true))).toEqual(['a', 'b']);
  });

  test('STM-15 a component left more than 3 mm off the middle is left out unless all are; a weak spot weighs more', () => {
    const off = (v: StemVerdict, restMm: number) =>
      ({ ...v, offset: { choice: { coupler: null, restMm } } }) as StemVerdict;
    expect(passing(off(verdict('a', 'passes', 100), 3.1), off(verdict('b', 'passes', 100), 2.9))).toEqual(['b']);
    expect(passing(off(verdict('a', 'passes', 100), 5), off(verdict('b', 'passes', 100), 4))).toEqual(['a', 'b']);
    expect(passing(off(verdict('a', 'passes', 100), 5), off(verdict('b', 'passes', 100, true), 0))).toEqual(['a']);
  });

  test('STM-9 the longest that passes is that of the stricter view; tilts are carried as they are', () => {
    expect(stemLimits([verdict('a', 'passes', 100)])[0]).toEqual({
      ref: 'a',
      passes: true,
      longestPassingMm: 120,
      looseMm: 0.5,
      forcedTiltDeg: { coronal: 1, sagittal: null },
    });
  });

  test('META-5 parts that do not fit are closed to the solver, those not known are open and say so; no cavity, no list', () => {
    const fits = cavityFits(
      cavityVerdicts('tibia', { cavityWidthMm: 40, cavityApMm: 30, cavityHeightMm: 25, wallMm: 4 }, catalogue) ?? [],
    );
    expect(fits.some((f) => f.fits)).toBe(true);
    expect(fits.some((f) => !f.fits)).toBe(true);
    expect(fits.filter((f) => f.fits).every((f) => f.reasons.some((r) => r.startsWith('not known')))).toBe(true);
    expect(cavityVerdicts('tibia', {}, catalogue)).toBeNull();
  });
});

describe('what a forced tilt does to the gaps', () => {
  const femur = catalogue.femurs.find((f) => f.ref === 'EX-F4R') as Femur;

  test('STM-8 flexing about the top of the flange brings the posterior condyles back and closes flexion by some tenths of a millimetre a degree (from memory 0.5 to 1, by size)', () => {
    const effect = flexionEffect(femur, 1);
    expect(effect?.flexionMm).toBeLessThan(-0.2);
    expect(effect?.flexionMm).toBeGreaterThan(-1.05);
    expect(flexionEffect(femur, 0)).toEqual({ extensionMm: 0, flexionMm: 0 });
    expect(flexionEffect(femur, -1)?.flexionMm).toBeGreaterThan(0);
    expect(flexionEffect({ ...femur, outlines: { coronal: [], sagittal: [] } }, 1)).toBeNull();
  });

  test('STM-8 a square outline turned by hand: 1 degree about its upper front corner', () => {
    const outlines = {
      coronal: [],
      sagittal: [
        [
          [0, 20],
          [0, 0],
          [60, 0],
          [60, 50],
        ] as const,
      ],
    };
    const effect = flexionEffect({ ...femur, apMm: 60, outlines }, 1);
    const [c, s] = [Math.cos(Math.PI / 180), Math.sin(Math.PI / 180)];
    // Corner (0, 0) seen from the flange's top (60, 50): y' = 60 - 60 c - 50 s, z' = 50 + 60 s - 50 c; corner (60, 0): z' = 50 - 50 c.
    expect(effect?.flexionMm).toBeCloseTo(60 - 60 * c - 50 * s, 9);
    expect(effect?.extensionMm).toBeCloseTo(Math.min(50 - 50 * c, 50 + 60 * s - 50 * c), 9);
  });

  test('STM-8 told in words: tilt of the component, then what it does to either gap', () => {
    const femoral = tiltWords('femur', { coronalDeg: -1.5, sagittalDeg: 2 }, { extensionMm: 0, flexionMm: -0.6 });
    expect(femoral).toEqual(['1.5 degrees of varus', '2.0 degrees of flexion', 'flexion 0.6 mm tighter']);
    const tibial = tiltWords('tibia', { coronalDeg: 1, sagittalDeg: -1 }, { extensionMm: 0.2, flexionMm: -0.23 });
    expect(tibial).toEqual([
      '1.0 degrees of valgus',
      '1.0 degrees of lost slope',
      'extension 0.2 mm looser',
      'flexion 0.2 mm tighter',
    ]);
    expect(tiltWords('femur', { coronalDeg: 0, sagittalDeg: null }, null)).toEqual([]);
    expect(plan.stems?.femur.chosen?.does).toEqual([]);
  });

  test('STM-8 a degree of slope opens flexion by 0.23 mm over 13.2 mm (Okazaki 2014)', () => {
    const effect = slopeEffect(1, { slopeDeg: 0, behindMm: 13.2 });
    expect(effect.extensionMm).toBe(0);
    expect(effect.flexionMm).toBeCloseTo(0.23, 2);
  });
});

describe('where components hold their stems', () => {
  test('STM-9 components of the bones own width; in the middle of the range while the width is not known', () => {
    const at = (state: ReturnType<typeof stateOf> | null) =>
      expectedSeats({ side: 'right', catalogue, state, slopeDeg: 3 });
    const known = at(stateOf(plan));
    expect(known?.femur).toMatchObject({ valgusDeg: 6 });
    expect(known?.tibia.slopeDeg).toBe(3);
    const { tibiaMm } = stateOf(plan);
    const face = Math.min(tibiaMm.medial, tibiaMm.lateral);
    expect(known?.tibia.faceMm).toBeCloseTo(face - 4.5, 9);
    expect(at(null)?.femur.seatMm).toBeGreaterThan(0);
    expect(
      expectedSeats({ side: 'right', catalogue: { ...catalogue, femurs: [] }, state: null, slopeDeg: 0 }),
    ).toBeNull();
  });
});

describe('stems on the films', () => {
  const layersOf = (film: string): readonly DrawnLayer[] => plan.drawings.find((d) => d.film === film)?.layers ?? [];

  test.each(['long', 'side'])(
    'canals and stems are drawn on film %s, each stem between the walls of its canal',
    (film) => {
      const layers = layersOf(film);
      for (const bone of ['femur', 'tibia'] as const) {
        const walls = layers.filter((l) => l.kind === 'canal' && l.id.startsWith(`canal:${bone}`));
        expect(walls).toHaveLength(2);
        const stem = layers.find((l) => l.kind === 'stem' && l.id.endsWith(`:${bone}`));
        if (!stem) throw new Error(`no stem in the ${bone}`);
        const rows = walls.flatMap((w) => w.points.map((p) => p.y));
        const [top, bottom] = [Math.min(...rows), Math.max(...rows)];
        const inside = stem.points.filter((p) => p.y > top && p.y < bottom);
        expect(inside.length).toBeGreaterThan(3);
        for (const p of inside) {
          const [a, b] = walls.map((w) => columnAt(w.points, p.y));
          expect(p.x).toBeGreaterThan(Math.min(a ?? 0, b ?? 0) - 0.5);
          expect(p.x).toBeLessThan(Math.max(a ?? 0, b ?? 0) + 0.5);
        }
      }
    },
  );

  /** Column of a drawn wall at a row, straight between its points. */
  function columnAt(points: DrawnLayer['points'], row: number): number {
    for (const [i, q] of points.entries()) {
      const p = points[i - 1];
      if (p && (p.y - row) * (q.y - row) <= 0 && p.y !== q.y) return p.x + ((row - p.y) / (q.y - p.y)) * (q.x - p.x);
    }
    throw new Error(`no wall at row ${row}`);
  }

  test('one drawing of each stem, with no two layers of one id', () => {
    for (const film of ['long', 'side']) {
      const ids = layersOf(film).map((l) => `${l.kind} ${l.id} ${l.belongs}`);
      expect(new Set(ids).size).toBe(ids.length);
    }
  });

  /** The plan's construct with other parts, drawn. */
  function drawnWith(parts: Partial<Construct>, film: string, file = all): readonly DrawnLayer[] {
    if (plan.construct.kind !== 'solved') throw new Error(plan.construct.kind);
    const construct = { ...plan.construct.answer.best.construct, ...parts };
    const drawable = { file, evidence: evidenceFor(file, calibrateFilms(file)), plan, catalogue };
    return drawConstruct(drawable, { construct }).find((d) => d.film === film)?.layers ?? [];
  }

  test('a cone is drawn to its width in front and to its depth from the side, its mouth at the tray', () => {
    const cone = catalogue.cones?.find((c) => c.ref === 'EX-CTM');
    for (const [film, mm] of [
      ['long', cone?.widthMm ?? 0],
      ['side', cone?.apMm ?? 0],
    ] as const) {
      const layer = drawnWith({ tibialCone: 'EX-CTM' }, film).find((l) => l.kind === 'cone');
      const [a, b] = layer?.points ?? [];
      // 0.2 mm a pixel.
      expect(Math.hypot((a?.x ?? 0) - (b?.x ?? 0), (a?.y ?? 0) - (b?.y ?? 0)) * 0.2).toBeCloseTo(mm, 6);
    }
  });

  test('STM-5 a stem that a bowed femur stops is drawn as its component holds it, with rings where the walls hold the longest that passes', () => {
    const bowed = traced('femur', 'side', { middle: (h) => 15.5 - (h - 40) ** 2 / (2 * 900), widthMm: 15.6 });
    const file = knee([FEMUR_LONG, bowed]);
    const layers = drawnWith({ femoralStem: 'EX-SP15-200' }, 'side', file);
    expect(layers.find((l) => l.kind === 'stem' && l.id === 'EX-SP15-200:femur')?.points).toHaveLength(4);
    const rings = layers.filter((l) => l.kind === 'contact' && l.id.startsWith('contact:femur'));
    // Both ends at the front, the middle at the back; 0.6 mm of play: about 2 sqrt(2 x 900 x 0.6) = 66 mm from the first level.
    expect(rings.map((r) => r.label?.match(/anterior|posterior/)?.[0])).toEqual(['anterior', 'posterior', 'anterior']);
    expect(rings.every((r) => r.label?.startsWith('Stem is stopped'))).toBe(true);
    const [first, , last] = rings.map((r) => r.points[0]?.y ?? 0);
    expect(Math.abs(Math.abs((last ?? 0) - (first ?? 0)) * 0.2 - 66)).toBeLessThan(6);
  });

  test('a weak spot is marked where it ends, and where a stem must reach', () => {
    const holes = {
      tibiaMap: { diaphysis: { outerDiameterMm: 25, weakSpots: [{ kind: 'screw-holes' as const, farEndMm: 60 }] } },
    };
    const layers = planOf(knee(all.canals, holes)).drawings.find((d) => d.film === 'long')?.layers ?? [];
    const [spot, bypass] = ['weak-spot:tibia:0', 'bypass:tibia:0'].map(
      (id) => layers.find((l) => l.id === id)?.points[0],
    );
    // 50 mm apart at 0.2 mm a pixel.
    expect(Math.abs((bypass?.y ?? 0) - (spot?.y ?? 0))).toBeCloseTo(250, 0);
  });
});
