import { and, andNot, type Bits, count, countBoth } from './bits.ts';

export interface TreeProblem {
  /** All items. */
  readonly items: Bits;
  /** Items that answer yes to each question; questions in their order of preference among equals. */
  readonly questions: readonly Bits[];
  /**
   * What each action is good for: sets of items, each worth the same part of a point to its items, so that an item in all
   * of an action's sets is worth one. Actions in their order of preference among equals, at least one; all with as
   * many sets.
   */
  readonly actions: readonly (readonly Bits[])[];
  /** Most questions from the root to a leaf. */
  readonly depth: number;
  /** Fewest items of a leaf. */
  readonly leastItems: number;
  /** Points that one more leaf must bring to be worth its place. */
  readonly leafCost: number;
  /** Questions that are followed further at each branch, the most telling first; absent = all: then the tree is the best there is. */
  readonly wide?: number;
}

export type Tree =
  | { readonly kind: 'leaf'; readonly items: Bits; readonly action: number; readonly points: number }
  | { readonly kind: 'branch'; readonly items: Bits; readonly question: number; readonly yes: Tree; readonly no: Tree };

interface Grown {
  readonly tree: Tree;
  /** Points, less the cost of every leaf beyond the first. */
  readonly value: number;
}

interface Split {
  readonly question: number;
  /** Points of two leaves. */
  readonly points: number;
  /** Sum over both sides of the squared points of each action, over the side's size: large = telling. */
  readonly telling: number;
}

/**
 * The tree of few questions whose leaves, with one action each, earn the most points, less `leafCost` for every leaf
 * beyond the first.
 *
 * With all questions followed it is the best tree of its depth, by trying every question at every branch; `wide` follows
 * only the most telling ones (the measure is that of Gini, Breiman et al. 1984) and can only do worse. Among equal trees
 * a leaf goes before a branch, then the earlier question, then the earlier action.
 */
export const decisionTree = (problem: TreeProblem): Tree => grow(problem, problem.items, problem.depth).tree;

function grow(problem: TreeProblem, items: Bits, depth: number): Grown {
  const size = count(items);
  const points = problem.actions.map((action) => pointsOf(items, action));
  const most = Math.max(...points);
  let best: Grown = { tree: { kind: 'leaf', items, action: points.indexOf(most), points: most }, value: most };
  if (depth === 0 || size < 2 * problem.leastItems || most === size) return best;
  const splits = splitsOf(problem, items, { size, points });
  for (const split of depth === 1 ? splits : mostTelling(splits, problem.wide)) {
    if (depth === 1 && split.points - problem.leafCost <= best.value) continue;
    const question = problem.questions[split.question] as Bits;
    const yes = grow(problem, and(items, question), depth - 1);
    const no = grow(problem, andNot(items, question), depth - 1);
    const value = yes.value + no.value - problem.leafCost;
    if (value > best.value)
      best = { tree: { kind: 'branch', items, question: split.question, yes: yes.tree, no: no.tree }, value };
  }
  return best;
}

/** What an action is worth to some items. */
function pointsOf(items: Bits, action: readonly Bits[]): number {
  let n = 0;
  for (const level of action) n += countBoth(items, level);
  return n / action.length;
}

/** Every question that leaves enough items on both sides, in the given order. */
function splitsOf(
  { questions, actions, leastItems }: TreeProblem,
  items: Bits,
  node: { readonly size: number; readonly points: readonly number[] },
): readonly Split[] {
  const splits: Split[] = [];
  for (const [question, answers] of questions.entries()) {
    const size = countBoth(items, answers);
    if (size < leastItems || node.size - size < leastItems) continue;
    const yes = and(items, answers);
    let [mostYes, mostNo, telling] = [0, 0, 0];
    for (const [a, action] of actions.entries()) {
      const y = pointsOf(yes, action);
      const n = (node.points[a] as number) - y;
      mostYes = Math.max(mostYes, y);
      mostNo = Math.max(mostNo, n);
      telling += (y * y) / size + (n * n) / (node.size - size);
    }
    splits.push({ question, points: mostYes + mostNo, telling });
  }
  return splits;
}

/** The most telling questions, in the order in which they were given. */
function mostTelling(splits: readonly Split[], wide: number | undefined): readonly Split[] {
  if (wide === undefined || splits.length <= wide) return splits;
  return [...splits]
    .sort((a, b) => b.telling - a.telling || a.question - b.question)
    .slice(0, wide)
    .sort((a, b) => a.question - b.question);
}
