import type { Catalogue } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import { type Bits, bitsOf, count, countBoth } from './bits.ts';
import type { Candidate } from './candidates.ts';
import { decisionTree, type Tree } from './decision-tree.ts';
import { differsInWords } from './differs-in-words.ts';
import type { KneeForecast } from './forecast.ts';
import type { BailOut } from './forecast-types.ts';
import { type Observation, observationsOf } from './observations.ts';

export interface BailOutQuestion {
  readonly perKnee: readonly KneeForecast[];
  /** Construct for the expected bone; null = none fits. */
  readonly first: Construct | null;
  /** What may be done, the first choice first. */
  readonly candidates: readonly Candidate[];
  readonly catalogue: Catalogue;
}

/**
 * How large a tree may grow (FOR-12; choice of this project): three questions from the first to the last, no leaf under
 * 2 % of the knees, and a further leaf only where it gains 1 % of all knees.
 */
export const TREE = { depth: 3, leastShare: 0.02, leafShare: 0.01, wide: 10 } as const;

/** What a leaf may say: a construct and how it differs, in words. */
interface Action {
  readonly construct: Construct | null;
  readonly differs: string;
  /** Knees in which it holds, and knees in which it is as good as the best. */
  readonly serves: readonly [holds: Bits, asGood: Bits];
}

function actionsOf({ perKnee, first, candidates, catalogue }: BailOutQuestion): readonly Action[] {
  const n = perKnee.length;
  const constructs = candidates.map(
    ({ construct, holds, asGood }): Action => ({
      construct,
      differs: first
        ? differsInWords(construct, first, catalogue)
        : 'a construct, although none fits the bone planned for',
      serves: [holds, asGood],
    }),
  );
  const without = (infection: boolean): Action['serves'] => {
    const bits = bitsOf(n, (i) => isWithout(perKnee[i], infection));
    return [bits, bits];
  };
  return [
    ...constructs,
    { construct: null, differs: 'no construct of this system fits', serves: without(false) },
    { construct: null, differs: 'spacer, no construct', serves: without(true) },
  ];
}

const isWithout = (one: KneeForecast | undefined, infection: boolean): boolean =>
  one !== undefined && one.least === null && one.knee.infection === infection;

/**
 * The tree of bail-outs (FOR-11, FOR-12): few questions that theatre can answer, each leaf with the construct that does best
 * in its knees: a knee counts one where the construct is as good as the best, half where it still holds. Shares 0 to 1 of all
 * knees; a leaf's `pure` is the share of its own knees in which its construct holds (FOR-10). Bounds are whole millimetres, yes = more than the bound.
 *
 * Deterministic: among equals the first choice, the earlier question, the fewer leaves. At each branch the ten most
 * telling questions are followed to the end; judged against trying every question. Without knees: one leaf, as planned.
 */
export function bailOuts(question: BailOutQuestion): BailOut {
  const { perKnee } = question;
  const n = perKnee.length;
  const observations = observationsOf(perKnee.map((p) => p.knee));
  const actions = actionsOf(question);
  const tree = decisionTree({
    items: bitsOf(n, () => true),
    questions: observations.map(({ holds }) => bitsOf(n, (i) => holds((perKnee[i] as KneeForecast).knee))),
    actions: actions.map((a) => a.serves),
    depth: TREE.depth,
    leastItems: Math.max(1, Math.ceil(TREE.leastShare * n)),
    leafCost: TREE.leafShare * n,
    wide: TREE.wide,
  });
  return told(tree, { n, observations, actions });
}

interface Telling {
  readonly n: number;
  readonly observations: readonly Observation[];
  readonly actions: readonly Action[];
}

function told(tree: Tree, telling: Telling): BailOut {
  const { n, observations, actions } = telling;
  const size = count(tree.items);
  const share = n === 0 ? 1 : size / n;
  if (tree.kind === 'branch') {
    const { field, question, above } = observations[tree.question] as Observation;
    return { kind: 'ask', field, question, above, share, yes: told(tree.yes, telling), no: told(tree.no, telling) };
  }
  const { construct, differs, serves } = actions[tree.action] as Action;
  return { kind: 'do', construct, differs, share, pure: size === 0 ? 1 : countBoth(tree.items, serves[0]) / size };
}
