import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import type { SolverAnswer } from '../construct.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { easyKnee } from '../easy-knee.ts';
import { solve } from '../solve.ts';
import { narrowedBy } from './narrow-catalogue.ts';
import { pinInWords, pinsOfConstruct } from './pin-of-construct.ts';
import { NO_STEM, PINS, type Pinned } from './pinned.ts';
import { reachOf, stopsOf } from './reach.ts';
import { leastCost, solvePinned } from './solve-pinned.ts';

const catalogue = demoCatalogue();
const question = { state: easyKnee, catalogue, weights: DEFAULT_WEIGHTS };

function answerWith(pinned: Pinned, to: typeof question = question): SolverAnswer {
  const result = solvePinned({ ...to, pinned });
  if (result.kind !== 'solved') throw new Error(JSON.stringify(result.why.clashes));
  return result.answer;
}
function clashesWith(pinned: Pinned) {
  const result = solvePinned({ ...question, pinned });
  return result.kind === 'infeasible' ? result.why : null;
}

describe('what is fixed by hand', () => {
  test('GAP-40 nothing fixed is the solver itself, byte for byte', () => {
    expect(solvePinned({ ...question, pinned: {} })).toEqual(solve(question));
  });

  test('GAP-40 fixing everything as the best has it gives the best again, at no cost', () => {
    const free = answerWith({});
    const pinned = pinsOfConstruct(free.best.construct, catalogue);
    const held = answerWith(pinned);
    expect(held.best.construct).toEqual(free.best.construct);
    expect(held.pinned?.more).toBeCloseTo(0, 9);
    expect(held.pinned?.terms).toEqual([]);
    expect(held.pinned?.lines.map((l) => l.id)).toEqual(PINS.map((p) => p.id));
    expect(held.pinned?.lines.every((l) => l.saves === 0 && l.fixed === l.free)).toBe(true);
  });

  test('GAP-41 the ledger tells what a pin costs against the free optimum, term by term', () => {
    const { best, pinned } = answerWith({ femurProximalMm: 2.5 });
    const free = answerWith({}).best;
    expect(best.construct.femurProximalMm).toBe(2.5);
    expect(pinned?.free).toEqual(free);
    expect(pinned?.more).toBeCloseTo(best.cost - free.cost, 9);
    const sum = pinned?.terms.reduce((s, t) => s + t.cost - t.freeCost, 0);
    expect(sum).toBeCloseTo(best.cost - free.cost, 9);
    expect(pinned?.lines).toMatchObject([
      { id: 'femurProximalMm', label: 'Femoral joint line', fixed: '2.5 mm proximal', free: 'on target' },
    ]);
    expect(pinned?.lines[0]?.saves).toBeCloseTo(best.cost - free.cost, 9);
  });

  test('GAP-41 each pin is told what releasing it alone would save', () => {
    const both = { femurProximalMm: 3, insertMm: 14 };
    const { best, pinned } = answerWith(both);
    const without = (p: Pinned) => best.cost - (leastCost({ ...question, pinned: p }) ?? Number.NaN);
    expect(pinned?.lines.map((l) => l.saves)).toEqual([
      expect.closeTo(without({ insertMm: 14 }), 9),
      expect.closeTo(without({ femurProximalMm: 3 }), 9),
    ]);
  });

  test('GAP-40 the next best constructs keep what is fixed too', () => {
    const { best, alternatives } = answerWith({ femurSize: 5, insertMm: 12 });
    expect(alternatives.length).toBeGreaterThan(0);
    for (const { construct } of [best, ...alternatives]) {
      const has = pinsOfConstruct(construct, catalogue);
      expect([has.femurSize, has.insertMm]).toEqual([5, 12]);
    }
  });

  test('GAP-40 a stem that is fixed is the one that stands there; the other bone keeps its choice', () => {
    const state = { ...easyKnee, femurClass: '2A' as const, tibiaClass: '2A' as const };
    const own = answerWith({}, { ...question, state }).best.construct;
    const stems = catalogue.stems.filter((s) => s.bone !== 'tibia' && s.diameterMm <= 14 && s.ref !== own.femoralStem);
    const other = stems.find((s) => s.fixation === 'press-fit')?.ref ?? '';
    const { construct } = answerWith({ femoralStem: other }, { ...question, state }).best;
    expect(construct.femoralStem).toBe(other);
    expect(construct.tibialStem).toBe(own.tibialStem);
    // Where nothing demands a stem there may be none.
    expect(answerWith({ femoralStem: NO_STEM, tibialStem: NO_STEM }).best.construct).toMatchObject({
      femoralStem: null,
      tibialStem: null,
    });
  });

  test('GAP-42 a pin that leaves nothing is named, with the nearest value that goes', () => {
    const why = clashesWith({ femurProximalMm: 30 });
    const [clash] = why?.clashes ?? [];
    expect(clash).toMatchObject({ code: 'pin-femurProximalMm', field: 'settings.pinned.femurProximalMm' });
    expect(clash?.message).toContain('fixed by hand: 30 mm proximal');
    const nearest = 30 - (clash?.byMm ?? 0);
    expect(clash?.mend).toContain(`${Number(nearest.toFixed(1))} mm proximal`);
    expect(leastCost({ ...question, pinned: { femurProximalMm: nearest } })).not.toBeNull();
    expect(leastCost({ ...question, pinned: { femurProximalMm: nearest + 0.1 } })).toBeNull();
    // The limits that it runs into are told beside it.
    expect(why?.clashes.some((c) => c.code.startsWith('limit-'))).toBe(true);
    expect(why?.nearest?.differs).toBe('not as fixed by hand');
  });

  test('GAP-42 a size that the catalogue has not is named, and so are pins that only clash together', () => {
    expect(clashesWith({ femurSize: 99 })?.clashes).toMatchObject([{ code: 'pin-femurSize', mend: 'Release it.' }]);
    // Alone each of them goes; a thick insert and a high tray do not, unless the femur gives way.
    const both = { trayMm: -15, insertMm: 20, femurProximalMm: -1, femurAnteriorMm: 0 };
    const codes = clashesWith({ ...both, tibialAugmentsMm: { medial: 15, lateral: 15 } })?.clashes.map((c) => c.code);
    expect(codes?.some((c) => c.startsWith('pin-'))).toBe(true);
  });

  test('GAP-42 a knee that has no construct anyway is told why, without blame on the pins', () => {
    const state = { ...easyKnee, femurWidthMm: 20 };
    const free = solve({ ...question, state });
    expect(free.kind).toBe('infeasible');
    expect(solvePinned({ ...question, state, pinned: { femurSize: 4 } })).toEqual(free);
  });

  test('GAP-43 both ends of a reach go, a tenth beyond them nothing does, and the limit there is named', () => {
    const pinned: Pinned = { femurSize: 4, distalAugmentsMm: { medial: 0, lateral: 0 } };
    const reach = reachOf({ ...question, pinned }, 'femurProximalMm', 0);
    if (!reach) throw new Error('no reach');
    const does = (mm: number) => leastCost({ ...question, pinned: { ...pinned, femurProximalMm: mm } }) !== null;
    expect([does(reach.lowMm), does(reach.highMm)]).toEqual([true, true]);
    expect([does(reach.lowMm - 0.1), does(reach.highMm + 0.1)]).toEqual([false, false]);
    // Flush at D - td = 0: down by the depth of cement, up by the bone that may be cut.
    const { cementMm, cutMm } = catalogue.limits;
    expect(reach).toEqual({ lowMm: expect.closeTo(-cementMm, 9), highMm: expect.closeTo(cutMm, 9) });
    const below = stopsOf({ ...question, pinned: { ...pinned, femurProximalMm: reach.lowMm - 0.1 } });
    expect(below.map((c) => c.code)).toContain('limit-cement');
    expect(stopsOf({ ...question, pinned })).toEqual([]);
    expect(reachOf({ ...question, pinned }, 'femurProximalMm', 40)).toBeNull();
  });

  test('GAP-40 a narrowed catalogue is made once for the same pins, and is the catalogue itself for lengths', () => {
    expect(narrowedBy(catalogue, { femurProximalMm: 2 })).toBe(catalogue);
    expect(narrowedBy(catalogue, { femurSize: 4, femurProximalMm: 2 })).toBe(narrowedBy(catalogue, { femurSize: 4 }));
  });

  test('pins are told in words, with their way', () => {
    const words = (pinned: Pinned) => PINS.map(({ id }) => pinInWords(id, pinned, catalogue)).filter((w) => w !== '');
    expect(
      words({
        level: 'vvc',
        femurSize: 5,
        femurProximalMm: -2.5,
        femurAnteriorMm: 0.02,
        distalAugmentsMm: { medial: 4, lateral: 4 },
        posteriorAugmentsMm: { medial: 0, lateral: 8 },
        femoralOffsetMm: 0,
        femoralStem: NO_STEM,
        trayMm: -14,
        slopeDeg: 3,
      }),
    ).toEqual([
      'Varus-valgus constrained',
      'size 5',
      '2.5 mm distal',
      'on target',
      '4 mm on both sides',
      'medial none, lateral 8 mm',
      'none',
      'none',
      '14 mm below the target joint line',
      '3 degrees',
    ]);
  });
});
