import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import { AS_PLANNED, bailOutWords, otherwise } from './bail-out-words.ts';
import { TREE } from './bail-outs.ts';
import { differsInWords } from './differs-in-words.ts';
import { drawKnees } from './draw-knees.ts';
import type { DrawnKnee } from './drawn-knee.ts';
import { excessOf, partsInKind } from './excess.ts';
import { forecastOf } from './forecast.ts';
import type { BailOut } from './forecast-types.ts';
import { CERTAIN_KNEE, EXAMPLE_STATE, uncertainExample } from './judge/example-knee.ts';
import { observationsOf } from './observations.ts';

const catalogue = demoCatalogue();
const weights = DEFAULT_WEIGHTS;
const forecast = (knees: readonly DrawnKnee[]) =>
  forecastOf({ knees, expected: EXAMPLE_STATE, catalogue, weights, seed: 1 });

const knees = drawKnees(uncertainExample(), { draws: 400, seed: 2 });
const answer = forecast(knees);

const ends = (tree: BailOut): Extract<BailOut, { kind: 'do' }>[] =>
  tree.kind === 'do' ? [tree] : [...ends(tree.yes), ...ends(tree.no)];
const questionsDeep = (tree: BailOut): number =>
  tree.kind === 'do' ? 0 : 1 + Math.max(questionsDeep(tree.yes), questionsDeep(tree.no));

describe('FOR-11 questions that theatre can answer', () => {
  const observations = observationsOf(knees);

  test('bounds are whole millimetres and every question has its own words and its opposite', () => {
    for (const { above } of observations) if (above !== null) expect(Number.isInteger(above)).toBe(true);
    const words = observations.map((o) => o.question);
    expect(new Set(words).size).toBe(words.length);
    for (const question of words) {
      expect(otherwise(question)).not.toBe(question);
      expect(otherwise(question)).not.toMatch(/^not:/);
    }
  });

  test('gaps run from bone to bone: a target joint line that was wrong changes no answer about them', () => {
    const expected = { ...EXAMPLE_STATE, tibiaMm: { medial: 17.3, lateral: 13.4 } };
    const moved = drawKnees({ ...CERTAIN_KNEE, expected, jointLineSdMm: 3 }, { draws: 50, seed: 4 });
    const gaps = observationsOf(knees).filter((o) => /GapMm/.test(o.field));
    expect(gaps.length).toBeGreaterThan(10);
    for (const { holds, field, above } of gaps) {
      const answers = new Set(moved.map(holds));
      expect([field, above, answers.size]).toEqual([field, above, 1]);
    }
  });

  test('the example: an opened question and its answer in words', () => {
    expect(observations.map((o) => o.question)).toContain('the medial tibia is more than 18 mm below the joint line');
    expect(otherwise('the tibia is of class 2B or worse')).toBe('the tibia is of a class better than 2B');
    expect(otherwise('the medial collateral ligament is weak or gone')).toBe(
      'the medial collateral ligament is neither weak nor gone',
    );
  });
});

describe('FOR-12 the tree of bail-outs', () => {
  const tree = answer.forecast.bailOuts;

  test('is small: three questions deep, no leaf under 2 % of the knees, shares that add up', () => {
    expect(questionsDeep(tree)).toBeLessThanOrEqual(TREE.depth);
    for (const leaf of ends(tree)) expect(leaf.share).toBeGreaterThanOrEqual(TREE.leastShare);
    expect(ends(tree).reduce((sum, leaf) => sum + leaf.share, 0)).toBeCloseTo(1, 9);
    expect(ends(tree).length).toBeGreaterThan(1);
  });

  test('each leaf tells the share of its knees in which its construct holds, counted anew', () => {
    const observations = observationsOf(knees);
    const check = (node: BailOut, here: readonly (typeof answer.perKnee)[number][]): void => {
      expect(node.share).toBeCloseTo(here.length / knees.length, 9);
      if (node.kind === 'ask') {
        const asked = observations.find((o) => o.question === node.question);
        check(
          node.yes,
          here.filter((p) => asked?.holds(p.knee)),
        );
        check(
          node.no,
          here.filter((p) => !asked?.holds(p.knee)),
        );
      } else if (node.construct) {
        const holds = excessOf(node.construct, { catalogue, weights });
        const right = here.filter((p) => p.least && holds(p.knee.state, p.least.cost) !== null).length;
        expect(node.pure).toBeCloseTo(right / here.length, 9);
      }
    };
    check(tree, answer.perKnee);
  });

  test('answers for more knees than the first choice alone', () => {
    const right = ends(tree).reduce((sum, leaf) => sum + leaf.share * leaf.pure, 0);
    expect(right).toBeGreaterThan(answer.forecast.firstHolds + TREE.leafShare);
  });

  test('in sentences: every way once, most frequent first', () => {
    const lines = bailOutWords(tree);
    expect(lines.length).toBe(ends(tree).length);
    expect(lines.reduce((sum, l) => sum + l.share, 0)).toBeCloseTo(1, 9);
    for (const [i, line] of lines.entries()) {
      expect(line.when).toMatch(/^if /);
      expect(line.doing).not.toBe('');
      if (i > 0) expect(line.share).toBeLessThanOrEqual(lines[i - 1]?.share ?? 1);
    }
  });

  test('one thing that decides is found: a medial tibia that may be 10 mm deeper asks just that', () => {
    const deep = { ...EXAMPLE_STATE, tibiaMm: { medial: 27, lateral: 13 } };
    const two = Array.from(
      { length: 100 },
      (_, i): DrawnKnee => ({
        state: i < 30 ? deep : EXAMPLE_STATE,
        fracture: false,
        infection: false,
      }),
    );
    const { bailOuts } = forecast(two).forecast;
    if (bailOuts.kind !== 'ask') throw new Error('one question is needed');
    expect(bailOuts.field).toMatch(/^(tibiaMm|flexionGapMm|extensionGapMm)\.medial$/);
    expect(bailOuts.yes).toMatchObject({ kind: 'do', share: 0.3, pure: 1 });
    expect(bailOuts.no).toMatchObject({ kind: 'do', share: 0.7, pure: 1, differs: '' });
    expect(bailOutWords(bailOuts)[0]?.doing).toBe(AS_PLANNED);
    expect(bailOutWords(bailOuts)[1]?.doing).toMatch(/block \d+ (instead of \d+ )?medially|tibial/);
  });
});

describe('FOR-13 how a construct differs, in the words of theatre', () => {
  const first = answer.first;
  if (!first) throw new Error('the example knee has a construct');
  const block = (mm: number) => {
    const tray = catalogue.trays.find((t) => t.ref === first.tray);
    return (
      catalogue.tibialAugments.find((a) => a.thicknessMm === mm && a.traySizes.includes(tray?.size ?? 0))?.ref ?? ''
    );
  };

  test('nothing = the same in kind', () => expect(differsInWords(first, first, catalogue)).toBe(''));

  test('block 10 instead of 5 medially, longer tibial stem, same insert', () => {
    const plan = { ...first, tibialAugments: { medial: block(5), lateral: null } };
    const stem = catalogue.stems.find((s) => s.ref === first.tibialStem);
    const longer = catalogue.stems.find((s) => s.fixation === stem?.fixation && s.lengthMm > (stem?.lengthMm ?? 0));
    const found = { ...plan, tibialAugments: { medial: block(10), lateral: null }, tibialStem: longer?.ref ?? null };
    expect(differsInWords(found, plan, catalogue)).toBe(
      `block 10 instead of 5 medially, tibial stem ${longer?.lengthMm} instead of ${stem?.lengthMm}, same insert`,
    );
  });

  test('both sides alike are said once; what is left away is said', () => {
    const none = { ...first, tibialAugments: { medial: null, lateral: null } };
    const two = { ...first, tibialAugments: { medial: block(10), lateral: block(10) } };
    expect(differsInWords(two, none, catalogue)).toBe('block 10 on both sides, same insert');
    expect(differsInWords(none, two, catalogue)).toBe('no block on both sides, same insert');
    expect(differsInWords({ ...first, level: 'hinge' }, first, catalogue)).toBe('rotating hinge, same insert');
  });

  test('sleeves by their kind, the end of a bone that is replaced by its name', () => {
    const plain = {
      ...first,
      distalAugments: { medial: null, lateral: null },
      posteriorAugments: { medial: null, lateral: null },
      femoralOffset: null,
      tibialCone: null,
    };
    const sleeve = catalogue.sleeves?.find((s) => s.bone === 'tibia');
    const segment = catalogue.segments?.find((s) => s.bone === 'femur');
    if (!sleeve || !segment) throw new Error('the example system has both');
    expect(differsInWords({ ...plain, tibialSleeve: sleeve.ref }, plain, catalogue)).toBe('tibial sleeve, same insert');
    const replaced = { ...plain, femur: segment.ref, femoralSegmentMm: segment.replacesMm };
    expect(differsInWords(replaced, plain, catalogue)).toBe(`${segment.name}, same insert`);
    const refs = partsInKind({ ...plain, tibialSleeve: sleeve.ref }, catalogue);
    expect(catalogue.sleeves?.filter((s) => refs.has(s.ref)).every((s) => s.bone === 'tibia')).toBe(true);
    expect(refs.has(sleeve.ref)).toBe(true);
    expect(partsInKind(replaced, catalogue).has(segment.ref)).toBe(true);
  });

  test('an insert beyond 2 mm is thicker or thinner, with its label', () => {
    const insert = catalogue.inserts.find((i) => i.ref === first.insert);
    const thicker = catalogue.inserts.find(
      (i) => i.size === insert?.size && i.level === insert.level && i.labelMm > insert.labelMm + 3,
    );
    expect(differsInWords({ ...first, insert: thicker?.ref ?? '' }, first, catalogue)).toBe(
      `thicker insert, ${thicker?.labelMm} instead of ${insert?.labelMm}`,
    );
  });
});
