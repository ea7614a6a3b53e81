import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { onFilm, squareKnee } from '../../cases/square-knee.ts';
import type { DrawnDefect, SurfaceLoss, TibiaMap } from '../bone/bone-map.ts';
import { stemRules } from '../bone/treatment/stem-rules.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import { stemDemands } from '../stems/stem-demand.ts';
import { applyEdit } from './apply-edit.ts';
import { ageAtSurgery, stemCallOf, treatmentBySurface } from './bone-stock-treatment.ts';
import { zonesOfPlan } from './bone-stock-zones.ts';
import type { BoneFindings, CaseFile } from './case.ts';
import { makePlan } from './make-plan.ts';

// The square knee in mm from the middle of its joint line: femoral component 9 mm thick, so that the femoral plane lies at y = 9; tray's
// upper face at -10 and 4 mm thick, plane at -14; posterior surface at x = -24 and 9 mm thick, plane at -15. Surfaces are 36 and 37 mm long.
const withBone = (bone: BoneFindings, file = squareKnee()): CaseFile => ({ ...file, bone: { ...file.bone, ...bone } });
const drawn = (
  id: string,
  rest: Pick<DrawnDefect, 'surface' | 'compartment'>,
  mm: readonly (readonly [number, number])[],
): DrawnDefect => {
  const film = rest.surface === 'femur-posterior' || rest.surface === 'femur-anterior' ? 'side' : 'long';
  return { id, film, outline: mm.map((at) => onFilm(film, at)), ...rest };
};
const box = (x0: number, x1: number, [y0, y1]: readonly [number, number]) =>
  [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ] as const;

const MEDIAL_FEMUR = drawn('a', { surface: 'femur-distal', compartment: 'medial' }, box(-36, -18, [6, 19]));
const MEDIAL_TIBIA = drawn('b', { surface: 'tibia-plateau', compartment: 'medial' }, box(-37, -18.5, [-12, -26]));
const POSTERIOR = drawn('c', { surface: 'femur-posterior', compartment: 'lateral' }, box(-20, -8, [10, 25]));

const example = JSON.parse(readFileSync(new URL('../../catalogues/demo.json', import.meta.url), 'utf8')) as Catalogue;

const stockOf = (file: CaseFile) => makePlan(file, null).boneStock;
const stateOf = (file: CaseFile) => {
  const { bone } = makePlan(file, null);
  if (!bone.ok) throw new Error(bone.reason.message);
  return bone.value;
};
const sizeOf = (defect: DrawnDefect, file = withBone({ drawn: [defect] })) => {
  const stock = stockOf(file);
  const found = [...stock.femur.drawn, ...stock.tibia.drawn][0]?.size;
  if (!found) throw new Error('not drawn');
  return found;
};

describe('defects drawn on the films of the square knee', () => {
  test('BONE-10 medial distal femur 10 mm beyond the plane, half of 36 mm unsupported, worked by hand', () => {
    const size = sizeOf(MEDIAL_FEMUR);
    if (!size.ok) throw new Error(size.reason.message);
    expect(size.value.depthMm?.value).toBeCloseTo(10, 6);
    expect(size.value.widthMm?.value).toBeCloseTo(18, 6);
    expect(size.value.unsupportedPct?.value).toBeCloseTo(50, 6);
    expect(size.value.plane).toContain('bone face');
  });

  test('BONE-10 medial plateau 12 mm, lateral posterior condyle 7 mm', () => {
    const [tibia, posterior] = [sizeOf(MEDIAL_TIBIA), sizeOf(POSTERIOR)];
    if (!tibia.ok || !posterior.ok) throw new Error('not measured');
    expect(tibia.value.depthMm?.value).toBeCloseTo(12, 6);
    expect(tibia.value.unsupportedPct?.value).toBeCloseTo(50, 6);
    expect(posterior.value.depthMm?.value).toBeCloseTo(7, 6);
    expect(posterior.value.unsupportedPct).toBeNull();
  });

  test('BONE-10 a cavity: width and height from the AP film, depth front to back from the lateral one', () => {
    const ap = drawn('ap', { surface: 'tibia-metaphysis', compartment: 'both' }, box(-15, 17, [-16, -40]));
    const onSide = { ...drawn('lat', { surface: 'tibia-metaphysis', compartment: 'both' }, []), film: 'side' };
    const lateral = { ...onSide, outline: box(-8, 18, [-15, -38]).map((at) => onFilm('side', at)) };
    const { map } = stockOf(withBone({ drawn: [ap, lateral] })).tibia;
    const m = map.map.metaphysis;
    expect(
      [m?.cavityWidthMm, m?.cavityHeightMm, m?.cavityFromPlaneMm, m?.cavityApMm].map((v) => Number(v?.toFixed(6))),
    ).toEqual([32, 24, 2, 26]);
  });

  test('BONE-10 a drawing over both sides counts for each with its own part', () => {
    const both = drawn('d', { surface: 'tibia-plateau', compartment: 'both' }, box(-37, 18.5, [-10, -20]));
    const plateau = stockOf(withBone({ drawn: [both] })).tibia.map.map as TibiaMap;
    expect(plateau.plateau?.medial?.unsupportedPct).toBeCloseTo(100, 6);
    expect(plateau.plateau?.lateral?.unsupportedPct).toBeCloseTo(50, 6);
    expect(plateau.plateau?.lateral?.depthMm).toBeCloseTo(6, 6);
  });

  test('BONE-10 without the thickness of the tray the better bone mark stands in for the plane', () => {
    const file = squareKnee();
    const { trayThicknessMm: _, ...implants } = file.implants ?? {};
    const size = sizeOf(MEDIAL_TIBIA, withBone({ drawn: [MEDIAL_TIBIA] }, { ...file, implants }));
    if (!size.ok) throw new Error(size.reason.message);
    // Lateral mark at -15, defect down to -26.
    expect([size.value.depthMm?.value.toFixed(6), size.value.plane.split(';')[0]]).toEqual([
      '11.000000',
      'better of the two bone marks',
    ]);
  });

  test('BONE-10 a tilted tray: depth counts from its higher side, square to the target', () => {
    // 5 degrees in varus: the lateral contact stands 22 sin 5 = 1.92 mm higher than the middle, the medial one as much lower.
    const [c, s] = [36 * Math.cos((5 * Math.PI) / 180), 36 * Math.sin((5 * Math.PI) / 180)];
    const file = squareKnee({ ap: { 'tray-medial-edge': [-c, -10 - s], 'tray-lateral-edge': [c, -10 + s] } });
    const size = sizeOf(MEDIAL_TIBIA, withBone({ drawn: [MEDIAL_TIBIA] }, file));
    if (!size.ok) throw new Error(size.reason.message);
    expect(size.value.depthMm?.value).toBeCloseTo(12 + 1.917, 1);
  });

  test.each([
    ['drawn-on-other-view', { ...POSTERIOR, film: 'long' }],
    ['drawn-on-other-view', { ...MEDIAL_TIBIA, film: 'side' }],
    ['drawn-on-no-film', { ...MEDIAL_TIBIA, film: 'nowhere' }],
    ['drawn-on-the-other-side', { ...MEDIAL_TIBIA, compartment: 'lateral' }],
    ['drawn-outside-picture', { ...MEDIAL_TIBIA, outline: [...MEDIAL_TIBIA.outline, { x: 990, y: 4600 }] }],
    ['defect-before-the-plane', { ...MEDIAL_TIBIA, outline: box(-30, -10, [0, 5]).map((at) => onFilm('long', at)) }],
  ] as const)('BONE-10 refused with field and mend: %s', (code, defect) => {
    const size = sizeOf(defect);
    expect(size.ok ? '' : size.reason.code).toBe(code);
    if (size.ok) return;
    expect(size.reason.field).toBe(`bone.drawn[${defect.id}]`);
    expect((size.reason.mend ?? '').length).toBeGreaterThan(10);
  });

  test('BONE-10 where the film shows no line to count from, the marks that are missing are named', () => {
    const marks = squareKnee().marks.filter((m) => !m.landmark.startsWith('tray-'));
    const size = sizeOf(MEDIAL_TIBIA, withBone({ drawn: [MEDIAL_TIBIA] }, { ...squareKnee(), marks }));
    expect(size.ok ? '' : size.reason.mend).toContain('Tray, medial edge');
  });
});

describe('map entered and drawn', () => {
  test('BONE-11 entered wins, the drawn value stands beside it; what was not entered is taken with its spread', () => {
    const stock = stockOf(
      withBone({ drawn: [MEDIAL_TIBIA], tibiaMap: { plateau: { medial: { depthMm: 5, rim: 'lost' } } } }),
    ).tibia;
    const { plateau } = stock.map.map as TibiaMap;
    expect(plateau?.medial).toMatchObject({ depthMm: 5, rim: 'lost' });
    expect(plateau?.medial?.depthSdMm).toBeUndefined();
    expect(plateau?.medial?.unsupportedPct).toBeCloseTo(50, 6);
    expect(stock.both).toMatchObject([
      { field: 'bone.tibiaMap.plateau.medial.depthMm', entered: 5, film: 'long', apart: true },
    ]);
    expect(stock.taken.map((t) => t.field)).toEqual(['bone.tibiaMap.plateau.medial.unsupportedPct']);
    const alone = stockOf(withBone({ drawn: [MEDIAL_TIBIA] })).tibia;
    const taken = (alone.map.map as TibiaMap).plateau?.medial;
    expect(taken?.depthMm).toBeCloseTo(12, 6);
    expect(taken?.depthSdMm).toBeGreaterThan(1);
    expect(alone.both).toEqual([]);
  });

  test('BONE-11 an entry far from its drawing and a drawing that cannot be measured are conflicts of the plan', () => {
    const entered = { plateau: { medial: { depthMm: 5, depthSdMm: 1, unsupportedPct: 50 } } };
    const codes = (bone: BoneFindings) => makePlan(withBone(bone), null).conflicts.map((c) => c.code);
    expect(codes({ drawn: [MEDIAL_TIBIA], tibiaMap: entered })).toEqual(['entered-and-drawn-apart']);
    expect(codes({ drawn: [{ ...MEDIAL_TIBIA, film: 'nowhere' }] })).toEqual(['drawn-on-no-film']);
    const near = { plateau: { medial: { depthMm: 11, depthSdMm: 1, unsupportedPct: 40 } } };
    expect(codes({ drawn: [MEDIAL_TIBIA], tibiaMap: near })).toEqual([]);
  });

  test('BONE-11 of two drawings the deepest gives the depth, and shares of one film add', () => {
    const second = drawn('e', { surface: 'tibia-plateau', compartment: 'medial' }, box(-9.25, 0, [-13, -17]));
    const { plateau } = stockOf(withBone({ drawn: [second, MEDIAL_TIBIA] })).tibia.map.map as TibiaMap;
    expect(plateau?.medial?.depthMm).toBeCloseTo(12, 6);
    expect(plateau?.medial?.unsupportedPct).toBeCloseTo(75, 6);
  });

  test('BONE-5 a proposed class enters no plan until a person accepts it by one edit', () => {
    const { tibiaClass: _, ...bone } = squareKnee().bone ?? {};
    const tibiaMap: TibiaMap = {
      plateau: { medial: { depthMm: 12, unsupportedPct: 50 }, lateral: { depthMm: 0, unsupportedPct: 0 } },
    };
    const file = { ...squareKnee(), bone: { ...bone, tibiaMap } };
    const plan = makePlan(file, null);
    const { tibia } = plan.boneStock;
    expect([tibia.proposal.proposed, tibia.statedClass, tibia.standing]).toEqual(['2A', null, 'not-stated']);
    expect(tibia.toAccept).toEqual({ field: '/bone/tibiaClass', value: '2A' });
    expect(plan.bone.ok).toBe(false);
    const asked = plan.missing.find((m) => m.field === 'bone.tibiaClass');
    expect(asked?.wouldChange).toContain('2A');
    const accepted = applyEdit(file, { kind: 'set', field: tibia.toAccept?.field ?? '', value: tibia.toAccept?.value });
    if (!accepted.ok) throw new Error(accepted.reason.message);
    const after = makePlan(accepted.value, null);
    expect([after.bone.ok, after.boneStock.tibia.standing, after.boneStock.tibia.toAccept]).toEqual([
      true,
      'same',
      null,
    ]);
  });

  test('BONE-8 a plan that proposes a class names the publications behind it and behind its caution', () => {
    const sources = makePlan(withBone({ tibiaMap: { metaphysis: { flare: 'intact' } } }), null).sources;
    expect(sources).toContain('Brenneis 2023');
    expect(sources).toContain('Rosso 2019');
    expect(makePlan(squareKnee(), null).sources).not.toContain('Brenneis 2023');
  });

  test("BONE-5 the surgeon's class stays beside a proposal that differs, and the plan keeps to it", () => {
    const file = withBone({ tibiaClass: '1', tibiaMap: { plateau: { medial: { depthMm: 12, unsupportedPct: 50 } } } });
    const plan = makePlan(file, null);
    expect(plan.boneStock.tibia).toMatchObject({ statedClass: '1', standing: 'milder', toAccept: null });
    expect(plan.bone.ok && plan.bone.value.state.tibiaClass).toBe('1');
  });

  test('BONE-8 BONE-9 one class worse and the loss at removal stand with each bone', () => {
    const { femur, tibia } = stockOf(withBone({ femurFixation: 'ingrown' }));
    expect([femur.oneWorse, tibia.oneWorse]).toEqual(['2B', '2B']);
    expect(femur.removal.map((r) => [r.surface, r.confirmed])).toEqual([
      ['femur-distal', false],
      ['femur-posterior', false],
    ]);
    expect(tibia.removal).toEqual([]);
  });

  test('BONE-7 contradictions of the map, of the ligaments and of the estimates are conflicts of the plan', () => {
    const plan = makePlan(
      withBone({
        femurMap: { medialCollateral: 'lost', distal: { medial: { depthMm: 0, unsupportedPct: 60 } } },
        removalEstimates: [{ fixation: 'loose', surface: 'tibia', leastMm: 3, likelyMm: 1, mostMm: 2 }],
      }),
      null,
    );
    const fields = plan.conflicts.map((c) => c.field);
    expect(fields).toContain('bone.femurMap.medialCollateral');
    expect(fields).toContain('bone.femurMap.distal.medial.unsupportedPct');
    expect(fields).toContain('bone.removalEstimates[0]');
  });

  test('BONE-7 a cavity is held against the width measured on the films: 74 mm of tibia', () => {
    const conflicts = (cavityWidthMm: number) =>
      makePlan(withBone({ tibiaMap: { metaphysis: { cavityWidthMm } } }), null).conflicts.map((c) => c.field);
    expect(conflicts(80)).toContain('bone.tibiaMap.metaphysis.cavityWidthMm');
    expect(conflicts(60)).toEqual([]);
  });
});

describe('supports from the map', () => {
  const plain = stateOf(squareKnee()).state;
  const tibiaWith = (medial: SurfaceLoss) => stateOf(withBone({ tibiaMap: { plateau: { medial } } }));
  // Marks: medial tibia at -16, 2 mm beyond the plane at -14; medial femur at 12, 3 mm beyond the plane at 9.

  test('PLAN-21 a map deeper than the mark moves the support to plane + depth, never mark + depth', () => {
    const { state } = tibiaWith({ depthMm: 12, depthSdMm: 1, unsupportedPct: 60 });
    expect(state.tibiaMm.medial - plain.tibiaMm.medial).toBeCloseTo(12 - 2, 6);
    expect(state.tibiaMm.lateral).toBe(plain.tibiaMm.lateral);
    const femur = stateOf(
      withBone({ femurMap: { distal: { medial: { depthMm: 8, depthSdMm: 1, unsupportedPct: 60 } } } }),
    );
    expect(femur.state.femurDistalMm.medial - plain.femurDistalMm.medial).toBeCloseTo(8 - 3, 6);
  });

  test('PLAN-21 a posterior depth counts from 9 mm before the posterior surface, each side by itself', () => {
    // Mark at x = -15 lies just on the plane.
    const { state } = stateOf(
      withBone({ femurMap: { posterior: { lateral: { depthMm: 6, depthSdMm: 1, unsupportedPct: 60 } } } }),
    );
    expect(state.femurPosteriorMm.lateral - plain.femurPosteriorMm.lateral).toBeCloseTo(6, 6);
    expect(state.femurPosteriorMm.medial).toBe(plain.femurPosteriorMm.medial);
  });

  test('PLAN-21 a mark deeper than the map holds', () => {
    expect(tibiaWith({ depthMm: 1, depthSdMm: 1, unsupportedPct: 60 }).state).toEqual(plain);
  });

  test('PLAN-21 up to 40 % unsupported the component rests on the rest; a share not known counts as more and is said', () => {
    expect(tibiaWith({ depthMm: 12, depthSdMm: 1, unsupportedPct: 40 }).state).toEqual(plain);
    const open = withBone({ tibiaMap: { plateau: { medial: { depthMm: 12, depthSdMm: 1 } } } });
    expect(stateOf(open).state.tibiaMm.medial - plain.tibiaMm.medial).toBeCloseTo(10, 6);
    const asked = makePlan(open, null).missing.find((m) => m.field === 'bone.tibiaMap.plateau.medial.unsupportedPct');
    expect(asked?.wouldChange).toContain('40 %');
  });

  test('PLAN-21 the spread of the depth goes into the origin; without one it is not known, and asked for', () => {
    const sdOf = (medial: SurfaceLoss) => tibiaWith(medial).origins.find((o) => o.field === 'tibiaMm.medial')?.sd;
    const [one, three] = [sdOf({ depthMm: 12, depthSdMm: 1 }), sdOf({ depthMm: 12, depthSdMm: 3 })];
    expect(Math.sqrt((three ?? 0) ** 2 - (one ?? 0) ** 2)).toBeCloseTo(Math.sqrt(8), 6);
    expect(sdOf({ depthMm: 12 })).toBeNull();
    const plan = makePlan(withBone({ tibiaMap: { plateau: { medial: { depthMm: 12 } } } }), null);
    expect(plan.missing.map((m) => m.field)).toContain('bone.tibiaMap.plateau.medial.depthSdMm');
  });

  test('PLAN-21 map and mark more than 3 mm and two spreads apart are in conflict', () => {
    const conflicts = (depthMm: number) =>
      makePlan(
        withBone({ tibiaMap: { plateau: { medial: { depthMm, depthSdMm: 1, unsupportedPct: 60 } } } }),
        null,
      ).conflicts.map((c) => c.code);
    expect(conflicts(12)).toEqual(['map-and-mark-apart']);
    expect(conflicts(4)).toEqual([]);
  });

  test('PLAN-21 without the thickness of the tray the depth counts from the better mark', () => {
    const file = squareKnee();
    const { trayThicknessMm: _, ...implants } = file.implants ?? {};
    const map = { tibiaMap: { plateau: { medial: { depthMm: 12, depthSdMm: 1, unsupportedPct: 60 } } } };
    const { state } = stateOf(withBone(map, { ...file, implants }));
    // Better mark: lateral, 15 below the joint line.
    expect(state.tibiaMm.medial - plain.tibiaMm.medial).toBeCloseTo(15 + 12 - 16, 6);
  });

  test('PLAN-21 without the insert the plane is counted by contact, to the same level', () => {
    const file = squareKnee();
    const { insertMm: _, ...implants } = file.implants ?? {};
    const map = { tibiaMap: { plateau: { medial: { depthMm: 12, depthSdMm: 1, unsupportedPct: 60 } } } };
    expect(stateOf(withBone(map, { ...file, implants })).state.tibiaMm.medial).toBeCloseTo(
      plain.tibiaMm.medial + 10,
      6,
    );
  });

  test('PLAN-21 a drawn defect moves the support as an entered one does, with its spread', () => {
    const { state, origins } = stateOf(withBone({ drawn: [MEDIAL_TIBIA] }));
    expect(state.tibiaMm.medial - plain.tibiaMm.medial).toBeCloseTo(10, 6);
    expect(origins.find((o) => o.field === 'tibiaMm.medial')?.sd).toBeGreaterThan(1);
  });
});

describe('treatment, stem and zones of a case', () => {
  const file = withBone({
    tibiaMap: {
      plateau: { medial: { depthMm: 12, unsupportedPct: 60, contained: false } },
      diaphysis: { weakSpots: [{ kind: 'screw-holes', farEndMm: 45 }], outerDiameterMm: 25 },
    },
  });
  const stock = stockOf(file);

  test('TRE-6 a medial plateau 12 mm down: block offered, cement advised against, only surfaces with entries', () => {
    const [medial, ...others] = treatmentBySurface(stock.tibia, file);
    expect(others).toEqual([]);
    const verdicts = Object.fromEntries(medial?.options.map((o) => [o.id, o.verdict]) ?? []);
    expect(verdicts).toMatchObject({
      'block-augment': 'offered',
      cement: 'advised-against',
      'structural-graft': 'depends',
    });
    expect(treatmentBySurface(stock.femur, file)).toEqual([]);
  });

  test('TRE-10 age is that on the day of surgery, or of the latest film', () => {
    const born = { ...file, patient: { birthDate: '1956-03-31' } };
    expect(ageAtSurgery(born)).toBe(69);
    expect(ageAtSurgery({ ...born, kit: { surgeryOn: '2026-03-31' } })).toBe(70);
    expect(ageAtSurgery(file)).toBeNull();
    expect(ageAtSurgery({ ...born, patient: { birthDate: '2030-01-01' } })).toBeNull();
  });

  const plan = makePlan(squareKnee(), example);
  if (plan.construct.kind !== 'solved') throw new Error('not solved');
  const { construct } = plan.construct.answer.best;

  test('TRE-20 TRE-25 the stem of the planned tibia: by class and holes, tip past 45 + 2 x 25 mm', () => {
    const call = stemCallOf(stock.tibia, { ...construct, tibialAugments: { medial: 'block', lateral: null } });
    expect(call.verdict).toBe('mandatory');
    expect(call.why.map((w) => w.id)).toEqual(['TRE-20', 'TRE-23', 'TRE-25']);
    expect(call.bypass[0]?.tipAtLeastMm).toBe(95);
  });

  test('STM-1 agrees: wherever the stem demand of the solver asks for one, so do the rules of treatment', () => {
    for (const boneClass of ['1', '2A', '2B', '3'] as const)
      for (const level of ['ps', 'vvc', 'hinge'] as const)
        for (const augments of [0, 1])
          for (const cone of [false, true]) {
            const demanded = stemDemands({ augments, cone, boneClass, level, offsetCoupler: false }).length > 0;
            const facts = {
              bone: 'tibia',
              boneClass,
              quality: 'good',
              graft: false,
              sleeve: false,
              level,
              weakSpots: [],
              cemented: true,
            } as const;
            const { verdict } = stemRules({ ...facts, augment: augments > 0, cone });
            expect(verdict === 'mandatory').toBe(demanded);
          }
  });

  test('BONE-3 BONE-4 zones that remain and zones that the plan uses', () => {
    const zones = zonesOfPlan(stock.tibia, { ...construct, tibialStem: 'stem', tibialCone: null });
    expect(zones.zones.map((z) => [z.zone, z.left, z.plan])).toEqual([
      [1, 'holds', 'solid'],
      [2, 'with-a-part', 'not-used'],
      [3, 'with-a-part', 'solid'],
    ]);
    expect([zones.used, zones.wanted, zones.demanded]).toEqual([2, 2, false]);
    const bare = { ...stock.tibia, statedClass: null };
    const unstated = zonesOfPlan(bare, { ...construct, tibialStem: null, tibialCone: null, tibialSleeve: 'sleeve' });
    expect([unstated.used, unstated.demanded]).toEqual([1, null]);
  });
});
