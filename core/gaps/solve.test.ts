import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from './bone-state.ts';
import { checkWeights } from './check-weights.ts';
import type { SolvedConstruct, SolverAnswer } from './construct.ts';
import { DEFAULT_WEIGHTS } from './default-weights.ts';
import { easyKnee } from './easy-knee.ts';
import { dice, randomState } from './judge/random-cases.ts';
import { partsOf } from './parts-of.ts';
import { DEFAULT_SETTINGS, solve } from './solve.ts';
import type { WeightTable } from './weights.ts';

const catalogue = demoCatalogue();
const weights = DEFAULT_WEIGHTS;
const states = Array.from({ length: 60 }, (_, i) => randomState(dice(1000 + i)));

const both = <T extends number | null>(x: T): { medial: T; lateral: T } => ({ medial: x, lateral: x });

const answerFor = (state: BoneState, table: WeightTable = weights, system: Catalogue = catalogue): SolverAnswer => {
  const result = solve({ state, catalogue: system, weights: table });
  if (result.kind !== 'solved') throw new Error(result.why.clashes.map((c) => c.message).join(' '));
  return result.answer;
};
const whyFor = (state: BoneState, system: Catalogue = catalogue) => {
  const result = solve({ state, catalogue: system, weights });
  if (result.kind !== 'infeasible') throw new Error('a construct was found');
  return result.why;
};
const solved = states.flatMap((state) => {
  const result = solve({ state, catalogue, weights });
  return result.kind === 'solved' ? [{ state, answer: result.answer }] : [];
});
const sum = (xs: readonly number[]) => xs.reduce((a, b) => a + b, 0);

describe('the construct of least cost', () => {
  test('a knee that asks for nothing gets plain size 4 on target at no cost, a millimetre of laxity and no offset', () => {
    const { best } = answerFor(easyKnee);
    expect(best.construct).toMatchObject({
      level: 'ps',
      femur: 'EX-F4R',
      distalAugments: both(null),
      posteriorAugments: both(null),
      tibialAugments: both(null),
      tray: 'EX-T4',
      insert: 'EX-I4P11',
      femoralStem: null,
      femoralOffset: null,
      femurProximalMm: 0,
      femurAnteriorMm: 0,
      trayMm: -16,
      slopeDeg: 0,
    });
    expect(best.cost).toBe(0);
  });

  test('8 mm of bone lost on the medial condyle is built up with 8 mm, and a stem comes with it', () => {
    const { best } = answerFor({ ...easyKnee, femurClass: '2A', femurDistalMm: { medial: 17, lateral: 9 } });
    expect(best.construct.distalAugments).toEqual({ medial: 'EX-D4-8', lateral: null });
    expect(best.construct.femoralStem).toBe('EX-SP14-75');
    expect(best.construct.femurProximalMm).toBe(0);
  });

  test('GAP-8 loose in flexion only: the femur goes back, not the insert up', () => {
    const { best } = answerFor({ ...easyKnee, flexionLaxityMm: both(7), anteriorToPosteriorMm: 64 });
    expect(best.construct.femurAnteriorMm).toBeLessThan(0);
    expect(best.effect.extensionLaxityMm.medial).toBeLessThan(1);
  });

  test('GAP-8 loose in both: a thicker bearing, the femoral joint line stays', () => {
    const { best } = answerFor({ ...easyKnee, extensionLaxityMm: both(4), flexionLaxityMm: both(4) });
    expect(best.effect.bearingMm).toBeGreaterThan(1);
    expect(Math.abs(best.construct.femurProximalMm)).toBeLessThanOrEqual(2);
  });

  test('GAP-9 on random knees the cost is the sum of the ledger, and every line is amount times weight', () => {
    expect(solved.length).toBeGreaterThan(30);
    for (const { answer } of solved)
      for (const { cost, ledger } of [answer.best, ...answer.alternatives]) {
        expect(cost).toBeCloseTo(sum(ledger.map((line) => line.cost)), 12);
        for (const line of ledger) {
          expect(line.amount).toBeGreaterThanOrEqual(0);
          expect(line.cost).toBe(line.weight * line.amount);
          expect(line.reason.length).toBeGreaterThan(10);
        }
      }
  });

  test('GAP-10 GAP-11 on random knees every limit is kept', () => {
    const { limits } = catalogue;
    const keeps = ({ construct, effect }: SolvedConstruct) => {
      // A segment replaces its bone: no face of it is cut or cemented (GAP-24, GAP-25).
      const spaces = [
        ...(construct.femoralSegmentMm ? [] : [effect.femurDistalSpaceMm, effect.femurPosteriorSpaceMm]),
        ...(construct.tibialSegmentMm ? [] : [effect.tibiaSpaceMm]),
      ];
      for (const space of spaces.flatMap((s) => [s.medial, s.lateral])) {
        expect(space).toBeLessThanOrEqual(limits.cementMm + 1e-6);
        expect(space).toBeGreaterThanOrEqual(-limits.cutMm - 1e-6);
      }
      expect(Math.max(effect.femurOverhangMm, effect.trayOverhangMm)).toBeLessThanOrEqual(limits.overhangMm + 1e-6);
      expect(effect.flangeGapMm).toBeGreaterThanOrEqual(-1e-6);
      expect(effect.flangeGapMm).toBeLessThanOrEqual(limits.flangeGapMm + 1e-6);
      const { femur, tray, insert } = partsOf(construct, catalogue);
      expect(insert.leastPolyethyleneMm).toBeGreaterThanOrEqual(DEFAULT_SETTINGS.leastPolyethyleneMm);
      const { femurInsert, insertTray, femurTray } = catalogue.compatibility;
      expect(femurInsert).toContainEqual({ femurSize: femur.size, insertSize: insert.size, level: construct.level });
      expect(insertTray).toContainEqual({ insertSize: insert.size, traySize: tray.size });
      expect(femurTray).toContainEqual({ femurSize: femur.size, traySize: tray.size });
      if (construct.level !== 'ps') expect(construct.femoralStem && construct.tibialStem).toBeTruthy();
    };
    for (const { answer } of solved) for (const c of [answer.best, ...answer.alternatives]) keeps(c);
  });

  test('GAP-18 dearer weights never make a knee cheaper', () => {
    const dearer: WeightTable = { ...weights, weights: weights.weights.map((w) => ({ ...w, weight: w.weight * 1.3 })) };
    for (const { state, answer } of solved.slice(0, 25))
      expect(answerFor(state, dearer).best.cost).toBeGreaterThanOrEqual(answer.best.cost - 1e-9);
  });

  test('GAP-18 fewer parts never make a knee cheaper', () => {
    const fewer: Catalogue = {
      ...catalogue,
      femoralAugments: catalogue.femoralAugments.filter((a) => a.thicknessMm !== 8),
    };
    for (const { state, answer } of solved.slice(0, 25)) {
      const result = solve({ state, catalogue: fewer, weights });
      if (result.kind === 'solved') expect(result.answer.best.cost).toBeGreaterThanOrEqual(answer.best.cost - 1e-9);
    }
  });

  test('a knee of the other side gets the same construct with the other side’s femur', () => {
    const flip = (ref: string) => ref.replace(/[RL]$/, (x) => (x === 'R' ? 'L' : 'R'));
    for (const { state, answer } of solved.slice(0, 25)) {
      const other = answerFor({ ...state, side: state.side === 'right' ? 'left' : 'right' });
      expect(other.best.construct).toEqual({ ...answer.best.construct, femur: flip(answer.best.construct.femur) });
    }
  });

  test('GAP-20 the same question gives the same bytes, whatever the order of the catalogue’s lists', () => {
    const turned: Catalogue = {
      ...catalogue,
      inserts: [...catalogue.inserts].reverse(),
      femoralAugments: [...catalogue.femoralAugments].reverse(),
      tibialAugments: [...catalogue.tibialAugments].reverse(),
      stems: [...catalogue.stems].reverse(),
    };
    for (const { state, answer } of solved.slice(0, 15)) {
      expect(JSON.stringify(answerFor(state))).toBe(JSON.stringify(answer));
      expect(JSON.stringify(answerFor(state, weights, turned))).toBe(JSON.stringify(answer));
    }
  });

  test('GAP-20 without weights all is equal, and the stated order decides', () => {
    const free: WeightTable = { ...weights, weights: weights.weights.map((w) => ({ ...w, weight: 0 })) };
    const { best } = answerFor(easyKnee, free);
    expect(best.cost).toBe(0);
    expect(best.construct).toMatchObject({
      level: 'ps',
      distalAugments: both(null),
      tibialAugments: both(null),
      slopeDeg: 0,
    });
  });

  test('frozen input is enough: the solver changes nothing', () => {
    const freeze = <T>(x: T): T => {
      if (typeof x === 'object' && x !== null && !Object.isFrozen(x)) {
        Object.freeze(x);
        Object.values(x).forEach(freeze);
      }
      return x;
    };
    expect(() =>
      solve(freeze({ state: { ...easyKnee }, catalogue: demoCatalogue(), weights: structuredClone(weights) })),
    ).not.toThrow();
  });
});

describe('what is not known', () => {
  test('GAP-19 a canal that was not measured: the fit is listed, not charged', () => {
    const { best } = answerFor({
      ...easyKnee,
      femurClass: '2A',
      femurCanalMm: null,
      tibiaClass: '2A',
      tibiaCanalMm: null,
    });
    expect(best.ledger.some((line) => line.id === 'stem-fit')).toBe(false);
    expect(best.notKnown?.filter((t) => t.id === 'stem-fit').map((t) => t.label)).toEqual([
      'Fit of the femoral stem',
      'Fit of the tibial stem',
    ]);
    expect(best.construct.femoralStem).toBe('EX-SC10-50');
  });

  test('GAP-19 the outline that the femur should have is among them wherever the state does not hold it', () => {
    for (const { answer } of solved) expect(answer.best.notKnown?.[0]?.id).toBe('arc-outline');
  });

  test('CON-8 an unknown ligament does not raise the level, and asks for a hinge in theatre', () => {
    const { best } = answerFor({ ...easyKnee, mcl: 'unknown' });
    expect(best.construct.level).toBe('ps');
    expect(best.notes?.[0]?.code).toBe('CON-8');
  });

  test('BONE-3 unknown quality of sound bone leaves zone 1 open and says so', () => {
    const { best } = answerFor({ ...easyKnee, femurQuality: 'unknown' });
    expect(best.notKnown?.some((t) => t.id === 'zones' && t.label.includes('femur'))).toBe(true);
  });
});

describe('limits that nothing buys off', () => {
  test('CON-2 a lost medial ligament: hinge with stems of 100 mm, whatever it costs', () => {
    const { construct } = answerFor({ ...easyKnee, mcl: 'absent' }).best;
    expect(construct).toMatchObject({ level: 'hinge', femoralStem: 'EX-SP14-100', tibialStem: 'EX-SP14-100' });
  });

  test('CON-6 gaps that no part can bring together within 4 mm raise the level', () => {
    const small: Catalogue = {
      ...catalogue,
      femurs: catalogue.femurs.filter((f) => f.size === 4),
      offsetCouplers: [],
      limits: { ...catalogue.limits, flangeGapMm: 0 },
    };
    const state = { ...easyKnee, flexionLaxityMm: both(9) };
    const strict = { ...small, limits: { ...small.limits, cementMm: 0.5, cutMm: 0.5 } };
    expect(answerFor(state, weights, { ...strict, femoralAugments: [] }).best.construct.level).toBe('hinge');
    expect(
      answerFor({ ...state, flexionLaxityMm: both(6) }, weights, { ...strict, femoralAugments: [] }).best.construct
        .level,
    ).toBe('vvc');
  });

  test('BONE-4 class 2B gets a cone with its stem, and none without cones in the catalogue', () => {
    const state: BoneState = { ...easyKnee, tibiaClass: '2B', tibiaMm: both(26) };
    expect(answerFor(state).best.construct.tibialCone).toBe('EX-CTM');
    const { cones: _cones, sleeves: _sleeves, ...without } = catalogue;
    const why = whyFor(state, without);
    expect(why.clashes.map((c) => c.code)).toContain('limit-zones');
    expect(why.nearest?.construct.tibialStem).toBeTruthy();
  });

  test('GAP-22 a tibia 2 mm too narrow for every tray: overhang alone, eased by as much', () => {
    const why = whyFor({ ...easyKnee, femurWidthMm: 60, anteriorToPosteriorMm: 55, tibiaWidthMm: 50 });
    const overhang = why.clashes.find((c) => c.code === 'limit-overhang');
    // The smallest tray is 60 mm: 5 mm over on each side, 3 are allowed.
    expect(overhang?.byMm).toBeCloseTo(2, 2);
    expect(overhang?.message).toContain('2.00 mm');
    expect(why.nearest?.construct.tray).toBe('EX-T1');
  });

  test('GAP-22 no stem passes the canal: said so', () => {
    const why = whyFor({ ...easyKnee, femurClass: '2A', femurCanalMm: 8 });
    expect(why.clashes.map((c) => c.code)).toEqual(['limit-stem']);
  });

  test('GAP-22 a hinge is demanded and the catalogue has none', () => {
    const without = { ...catalogue, inserts: catalogue.inserts.filter((i) => i.level !== 'hinge') };
    const why = whyFor({ ...easyKnee, mcl: 'absent' }, without);
    expect(why.clashes.map((c) => c.code)).toEqual(['limit-constraint']);
  });

  test('GAP-11 GAP-22 only thin inserts: polyethylene is named', () => {
    const thin = { ...catalogue, inserts: catalogue.inserts.filter((i) => i.labelMm <= 9) };
    const why = whyFor({ ...easyKnee, tibiaMm: both(13) }, thin);
    expect(why.clashes.map((c) => c.code)).toContain('limit-polyethylene');
  });

  test('GAP-22 two limits that clash only together are named together', () => {
    const why = whyFor({
      ...easyKnee,
      femurWidthMm: 60,
      anteriorToPosteriorMm: 55,
      tibiaWidthMm: 50,
      femurClass: '2A',
      femurCanalMm: 8,
    });
    expect(why.clashes.map((c) => c.code).sort()).toEqual(['limit-overhang', 'limit-stem']);
  });

  test('GAP-22 a catalogue that joins nothing: compatibility is named', () => {
    const nothing = { ...catalogue, compatibility: { ...catalogue.compatibility, femurTray: [] } };
    expect(whyFor(easyKnee, nothing).clashes.map((c) => c.code)).toEqual(['limit-compatibility']);
  });
});

describe('next best', () => {
  test('GAP-21 they differ from the best and from each other, dearer first never, and say how', () => {
    for (const { answer } of solved) {
      const all = [answer.best, ...answer.alternatives];
      expect(new Set(all.map((c) => JSON.stringify(c.construct))).size).toBe(all.length);
      expect(answer.best.differs).toBe('');
      for (const [i, c] of answer.alternatives.entries()) {
        expect(c.differs.length).toBeGreaterThan(5);
        expect(c.cost).toBeGreaterThanOrEqual((all[i]?.cost ?? 0) - 1e-9);
      }
      expect(answer.alternatives.length).toBeLessThanOrEqual(DEFAULT_SETTINGS.alternatives);
    }
  });

  test('GAP-21 each alternative is the exact least of its kind: the other size, solved alone, costs the same', () => {
    for (const { state, answer } of solved.slice(0, 12)) {
      const other = answer.alternatives.find((a) => /femur, size/.test(a.differs));
      if (!other) continue;
      const size = partsOf(answer.best.construct, catalogue).femur.size;
      const femurs = catalogue.femurs.filter((f) => f.size !== size);
      const segments = (catalogue.segments ?? []).filter((s) => s.bone === 'tibia' || s.size !== size);
      const without = { ...catalogue, femurs, segments };
      expect(answerFor(state, weights, without).best.cost).toBeCloseTo(other.cost, 9);
    }
  });

  test('combinations are counted as the compatibility tables allow', () => {
    const one: Catalogue = {
      ...catalogue,
      femurs: catalogue.femurs.filter((f) => f.ref === 'EX-F4R'),
      trays: catalogue.trays.filter((t) => t.size === 4),
      inserts: catalogue.inserts.filter((i) => i.size === 4 && i.level === 'ps'),
    };
    // 5 x 5 distal, 3 x 3 posterior, 4 offsets behind the femur and 4 under the tray, 5 x 5 blocks, 11 inserts, 2 slopes.
    expect(answerFor(easyKnee, weights, one).combinations).toBe(25 * 9 * 4 * 4 * 25 * 11 * 2);
  });
});

describe('weights', () => {
  const change = (id: string, to: object): WeightTable => ({
    ...weights,
    weights: weights.weights.map((w) => (w.id === id ? { ...w, ...to } : w)),
  });

  test('GAP-9 the default table is sound, and each weight has its reason and its source', () => {
    expect(checkWeights(weights)).toEqual({ ok: true, value: weights, warnings: [] });
    for (const w of weights.weights) {
      expect(w.reason.length).toBeGreaterThan(20);
      expect(w.source).toContain('grade D');
    }
  });

  test('GAP-9 a table from before a term was known is taken with the default of that term, and says so', () => {
    const before = { version: '1.0', weights: weights.weights.filter((w) => w.id !== 'sleeve' && w.id !== 'arc') };
    const checked = checkWeights(before);
    expect(checked.ok && checked.warnings.map((w) => w.field)).toEqual(['weights.arc', 'weights.sleeve']);
    expect(answerFor(easyKnee, before).best).toEqual(answerFor(easyKnee).best);
  });

  test.each([
    ['negative', change('stem', { weight: -1 })],
    ['not a number', change('stem', { weight: Number.NaN })],
    ['free zone upside down', change('joint-line-femur', { free: [2, -2] })],
    ['free zone over a sum', change('augment-count', { free: [0, 2] })],
    ['free zone below zero', change('cement', { free: [-1, 2] })],
    ['missing', { ...weights, weights: weights.weights.slice(1) }],
    ['twice', { ...weights, weights: [...weights.weights, weights.weights[0]!] }],
    ['a stranger', { ...weights, weights: [...weights.weights, { ...weights.weights[0]!, id: 'luck' }] }],
  ])('GAP-9 a table with a weight that is wrong is refused by name: %s', (_what, table) => {
    const outcome = checkWeights(table);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.reason.field).toMatch(/^weights\./);
  });
});
