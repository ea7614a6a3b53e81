import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bitsOf, count, countBoth, has } from './bits.ts';
import { decisionTree, type Tree, type TreeProblem } from './decision-tree.ts';
import { bestTreeValue, type PlainProblem } from './judge/exhaustive-tree.ts';

const toBits = (list: readonly boolean[]) => bitsOf(list.length, (i) => list[i] === true);

const asProblem = (plain: PlainProblem, wide?: number): TreeProblem => ({
  items: bitsOf(plain.actions[0]?.length ?? 0, () => true),
  questions: plain.questions.map(toBits),
  actions: plain.actions.map((worth) => [0.5, 1].map((least) => toBits(worth.map((w) => w >= least)))),
  depth: plain.depth,
  leastItems: plain.leastItems,
  leafCost: plain.leafCost,
  ...(wide === undefined ? {} : { wide }),
});

const leaves = (tree: Tree): Extract<Tree, { kind: 'leaf' }>[] =>
  tree.kind === 'leaf' ? [tree] : [...leaves(tree.yes), ...leaves(tree.no)];

const depthOf = (tree: Tree): number => (tree.kind === 'leaf' ? 0 : 1 + Math.max(depthOf(tree.yes), depthOf(tree.no)));

const worthOf = (tree: Tree, leafCost: number): number =>
  leaves(tree).reduce((sum, leaf) => sum + leaf.points, 0) - leafCost * (leaves(tree).length - 1);

const plainProblem = (items: { min: number; max: number }, questions: number) =>
  fc.integer(items).chain((n) => {
    const list = fc.array(fc.boolean(), { minLength: n, maxLength: n });
    const worth = fc.array(fc.constantFrom(0, 0, 0.5, 1), { minLength: n, maxLength: n });
    return fc.record({
      questions: fc.array(list, { minLength: 1, maxLength: questions }),
      actions: fc.array(worth, { minLength: 1, maxLength: 4 }),
      depth: fc.integer({ min: 1, max: 3 }),
      leastItems: fc.integer({ min: 1, max: 3 }),
      leafCost: fc.constantFrom(0, 0.5, 1, 2),
    });
  });

describe('FOR-12 the tree of few questions that serves the most', () => {
  test('is as good as the best of all trees, by listing them all', () => {
    let branched = 0;
    fc.assert(
      fc.property(plainProblem({ min: 3, max: 20 }, 4), (plain) => {
        const tree = decisionTree(asProblem(plain));
        if (tree.kind === 'branch') branched++;
        expect(worthOf(tree, plain.leafCost)).toBeCloseTo(bestTreeValue(plain), 9);
      }),
      { numRuns: 400, seed: 11 },
    );
    expect(branched).toBeGreaterThan(50);
  });

  test('keeps its depth and the least size of a leaf; every item is in one leaf and counted right', () => {
    fc.assert(
      fc.property(plainProblem({ min: 8, max: 70 }, 8), (plain) => {
        const tree = decisionTree(asProblem(plain));
        const ends = leaves(tree);
        expect(depthOf(tree)).toBeLessThanOrEqual(plain.depth);
        const n = plain.actions[0]?.length ?? 0;
        expect(ends.reduce((sum, leaf) => sum + count(leaf.items), 0)).toBe(n);
        for (const leaf of ends) {
          expect(count(leaf.items)).toBeGreaterThanOrEqual(plain.leastItems);
          const worth = plain.actions[leaf.action] ?? [];
          expect(leaf.points).toBe(worth.reduce<number>((sum, w, i) => sum + (has(leaf.items, i) ? w : 0), 0));
        }
      }),
      { numRuns: 200, seed: 12 },
    );
  });

  test('following only the most telling questions is never better, and within a hundredth of the items almost always', () => {
    const shortfall: number[] = [];
    fc.assert(
      fc.property(plainProblem({ min: 60, max: 120 }, 24), (plain) => {
        const cost = plain.leafCost;
        const best = worthOf(decisionTree(asProblem(plain)), cost);
        const wide = worthOf(decisionTree(asProblem(plain, 10)), cost);
        expect(wide).toBeLessThanOrEqual(best + 1e-9);
        shortfall.push((best - wide) / (plain.actions[0]?.length ?? 1));
      }),
      { numRuns: 60, seed: 13 },
    );
    expect(shortfall.filter((s) => s <= 0.01).length / shortfall.length).toBeGreaterThan(0.7);
    expect(Math.max(...shortfall)).toBeLessThan(0.06);
  });

  test('among equals: a leaf before a branch, the earlier question, the earlier action', () => {
    const same = { questions: [[true, true, false, false]], depth: 2, leastItems: 1, leafCost: 0 };
    const leaf = decisionTree(asProblem({ ...same, actions: [[1, 1, 1, 1]] }));
    expect(leaf.kind).toBe('leaf');
    const twice = decisionTree(
      asProblem({
        ...same,
        questions: [...same.questions, ...same.questions],
        actions: [
          [1, 1, 0, 0],
          [1, 1, 0, 0],
          [0, 0, 1, 1],
        ],
      }),
    );
    expect(twice).toMatchObject({ kind: 'branch', question: 0, yes: { action: 0 }, no: { action: 2 } });
  });
});

describe('sets of items as bits', () => {
  test('count what plain lists count', () => {
    const pair = fc
      .integer({ min: 0, max: 130 })
      .chain((n) => fc.tuple(...[0, 1].map(() => fc.array(fc.boolean(), { minLength: n, maxLength: n }))));
    fc.assert(
      fc.property(pair, ([a = [], b = []]) => {
        expect(count(toBits(a))).toBe(a.filter(Boolean).length);
        expect(countBoth(toBits(a), toBits(b))).toBe(a.filter((x, i) => x && b[i]).length);
        a.forEach((x, i) => {
          expect(has(toBits(a), i)).toBe(x);
        });
      }),
      { seed: 14 },
    );
  });
});
