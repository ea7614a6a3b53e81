import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { DrawnKnee } from '../forecast/drawn-knee.ts';
import { dice, randomState } from '../gaps/judge/random-cases.ts';
import { chooseKit } from './choose-kit.ts';
import type { KitAnswer } from './kit-answer.ts';
import type { KitGroup, KitOffer, KitProblem } from './kit-problem.ts';
import type { KitWanted } from './kit-question.ts';
import { kitRoom } from './kit-room.ts';
import { maskOfAll } from './set-mask.ts';
import { whatIfMissing } from './what-if-missing.ts';

const catalogue = demoCatalogue();
const base = randomState(dice(4));

/** Sets A, B, ... by what they cost; small letters are loans. */
const offers = (costs: Readonly<Record<string, number>>, late: readonly string[] = []): KitOffer[] =>
  Object.entries(costs).map(([ref, cost]) => ({
    set: {
      ref,
      name: `Set ${ref}`,
      parts: [],
      owner: ref === ref.toLowerCase() ? 'loan' : 'own-shelf',
      trays: 1,
      fee: 0,
      leadDays: 0,
      ...(ref === 'b' ? { failShare: 0.1 } : {}),
    },
    cost,
    orderBy: null,
    late: late.includes(ref),
  }));

/** Groups as "weight: options", such as `60: AB C`. */
function problem(
  costs: Readonly<Record<string, number>>,
  lines: readonly string[],
  late: readonly string[] = [],
): KitProblem {
  const refs = Object.keys(costs);
  const knees: DrawnKnee[] = [];
  const groups = lines.map((line): KitGroup => {
    const [weight = '', options = ''] = line.split(':');
    const from = knees.length;
    for (let i = 0; i < Number(weight); i++) {
      const medial = line.includes('!') ? 25 + (i % 3) : 10 + (i % 3);
      knees.push({ state: { ...base, tibiaMm: { medial, lateral: 12 } }, fracture: false, infection: false });
    }
    const masks = options.trim().replace('!', '').split(' ').filter(Boolean);
    return {
      weight: Number(weight),
      options: masks.map((word) => maskOfAll([...word].map((ref) => refs.indexOf(ref)))),
      parts: masks.map(() => []),
      services: [],
      knees: Array.from({ length: Number(weight) }, (_, i) => from + i),
      ...(masks.length === 0 ? { gap: { words: 'no block is that thick', addition: 'a block of 25 mm' } } : {}),
    };
  });
  return { sets: offers(costs, late), groups, knees, catalogue, currency: 'EUR', acceptableCost: 25, notes: [] };
}

function answer(asked: KitProblem, wanted: KitWanted = {}): KitAnswer {
  const steps = chooseKit(asked, wanted);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    expect(step.value.share).toBeGreaterThan(0);
    expect(step.value.leastCost).toBeLessThanOrEqual(step.value.cost + 1e-9);
  }
}

const TRIAL = problem({ A: 100, b: 60, C: 30, d: 500 }, ['60: Ab C', '25: A', '10: b', '4: d', '1: Ad']);

describe('the kit that is proposed', () => {
  test('KIT-5 is the cheapest that covers the share, worked out by hand', () => {
    // C covers 60, A 25, b 10: together 95 of 100 for 190; 60 by C rather than by A and b together, which come anyway.
    expect(answer(TRIAL, { sharePct: 95 })).toMatchObject({ bring: ['A', 'b'], cost: 160, share: 0.95, proven: true });
    expect(answer(TRIAL, { sharePct: 60 })).toMatchObject({ bring: ['C'], cost: 30, share: 0.6 });
    expect(answer(TRIAL, { sharePct: 70 })).toMatchObject({ bring: ['b', 'C'], cost: 90, share: 0.7 });
    expect(answer(TRIAL)).toMatchObject({ bring: ['A', 'b', 'd'], cost: 660, share: 1, asked: 0.99, reached: true });
  });

  test('KIT-6 what must come comes, what must not does not, and a late set stays away unless it must come', () => {
    expect(answer(TRIAL, { sharePct: 60, must: ['d'] })).toMatchObject({ bring: ['C', 'd'], cost: 530 });
    expect(answer(TRIAL, { sharePct: 60, mustNot: ['C'] })).toMatchObject({ bring: ['A', 'b'], cost: 160 });
    const late = problem({ A: 100, b: 60, C: 30, d: 500 }, ['60: Ab C', '25: A', '10: b', '4: d', '1: Ad'], ['C']);
    expect(answer(late, { sharePct: 60 }).bring).toEqual(['A', 'b']);
    expect(answer(late, { sharePct: 60, must: ['C'] }).bring).toEqual(['C']);
  });

  test('KIT-10 the curve goes from nothing to everything, cost and share ascending, and holds the room chosen', () => {
    const { curve } = answer(TRIAL, { sharePct: 70 });
    expect(curve.map((s) => [s.cost, Math.round(100 * s.share)])).toEqual([
      [0, 0],
      [30, 60],
      [90, 70],
      [130, 85],
      [160, 95],
      [660, 100],
    ]);
    expect(curve.every((s) => s.proven)).toBe(true);
    expect(curve.find((s) => s.cost === 90)?.bring).toEqual(['b', 'C']);
  });

  test('KIT-5 a share that no room reaches: the cheapest room that covers most, and why', () => {
    const short = problem({ A: 100, b: 60 }, ['60: A', '30: b', '10: !']);
    const kit = answer(short);
    expect(kit).toMatchObject({ bring: ['A', 'b'], share: 0.9, reached: false, proven: true });
    expect(kit.notes.map((n) => n.message).join()).toContain(
      '99.0 % cannot be reached: all sets that may come cover 90.0 %',
    );
  });

  test('KIT-10 what each set adds: lost if it were left, gained if it were brought', () => {
    const { sets } = kitRoom(TRIAL, ['A', 'b']);
    expect(sets.map((s) => [s.ref, s.brought, Math.round(100 * s.adds)])).toEqual([
      ['A', true, 85],
      ['b', true, 70],
      ['C', false, 0],
      ['d', false, 5],
    ]);
    expect(sets.map((s) => s.failShare)).toEqual([null, 0.1, null, null]);
  });

  test('KIT-9 what is uncovered is told by why, most frequent first, with what the knees have in common', () => {
    const short = problem({ A: 100, b: 60, C: 10 }, ['60: A', '30: b!', '8: !', '2: bC!']);
    const { uncovered } = kitRoom(short, ['A']);
    expect(uncovered.map((u) => [u.knees, u.when, u.wouldTake])).toEqual([
      [30, 'medial tibia more than 24 mm down', ['b']],
      [8, 'medial tibia more than 24 mm down', []],
      [2, 'medial tibia more than 24 mm down', ['b', 'C']],
    ]);
    expect(uncovered[0]?.words).toBe('Medial tibia more than 24 mm down: Set b not in the room');
    expect(uncovered[1]?.words).toBe(
      'Medial tibia more than 24 mm down: no block is that thick; it would take a block of 25 mm',
    );
    expect(uncovered.reduce((sum, u) => sum + u.share, 0)).toBeCloseTo(0.4, 12);
  });

  test('KIT-9 many rare kinds are told as one at the end, and the shares add up', () => {
    const refs = [...'ABCDEFGHIJKLMNOP'];
    const costs = Object.fromEntries(refs.map((ref, i) => [ref, 10 + i]));
    const many = problem(
      costs,
      refs.map((ref, i) => `${20 - i}: ${ref}`),
    );
    const { uncovered, share } = kitRoom(many, ['A']);
    expect(uncovered).toHaveLength(12);
    expect(uncovered.at(-1)).toMatchObject({ lack: 'other reasons, each of them rare', when: '', wouldTake: [] });
    expect(uncovered.reduce((sum, u) => sum + u.share, share)).toBeCloseTo(1, 12);
  });

  test('same input, same bytes', () => {
    expect(JSON.stringify(answer(TRIAL))).toBe(JSON.stringify(answer(TRIAL)));
  });

  test('references that the list does not hold are left aside', () => {
    expect(kitRoom(TRIAL, ['A', 'gone']).bring).toEqual(['A']);
  });

  test('no knee at all: nothing has to come, and everything is covered', () => {
    expect(answer(problem({ A: 100 }, []))).toMatchObject({ bring: [], cost: 0, share: 1, reached: true });
  });
});

describe('a set that does not arrive', () => {
  test('KIT-11 what is left, and the cheapest sets to bring besides', () => {
    expect(whatIfMissing(TRIAL, { bring: ['A', 'b'] }, { ref: 'b', sharePct: 85 })).toMatchObject({
      share: 0.25,
      failShare: 0.1,
      replacement: { bring: ['C'], extraCost: 30, share: 0.85, reached: true },
      words: 'Without Set b 25.0 % have an answer (70.0 % fewer); Set C instead brings it to 85.0 %.',
    });
  });

  test('KIT-11 the most that can be reached, where the share cannot be', () => {
    expect(whatIfMissing(TRIAL, { bring: ['A', 'b'] }, { ref: 'A', sharePct: 95 }).replacement).toMatchObject({
      bring: ['C', 'd'],
      share: 0.74,
      reached: false,
    });
  });

  test('KIT-11 nothing to bring where nothing is lost', () => {
    const kit = whatIfMissing(TRIAL, { bring: ['A', 'b', 'C'] }, { ref: 'C', sharePct: 95 });
    expect(kit).toMatchObject({ share: 0.95, replacement: null });
    expect(kit.words).toContain('(0.0 % fewer)');
  });
});
