/** A tree problem told plainly: answers as yes or no, and what each action is worth, for every item. */
export interface PlainProblem {
  readonly questions: readonly (readonly boolean[])[];
  readonly actions: readonly (readonly number[])[];
  readonly depth: number;
  readonly leastItems: number;
  readonly leafCost: number;
}

/**
 * Most points that any tree of the given depth can earn, less `leafCost` for every leaf beyond the first: every shape and
 * every choice of questions and of actions is listed. Shares no code with `decisionTree`.
 */
export function bestTreeValue({ questions, actions, depth, leastItems, leafCost }: PlainProblem): number {
  const n = actions[0]?.length ?? 0;
  const values = (items: readonly number[], left: number): number[] => {
    if (items.length < leastItems) return [];
    const asLeaf = actions.map((worth) => items.reduce((sum, i) => sum + (worth[i] ?? 0), 0));
    if (left === 0) return asLeaf;
    const asBranch = questions.flatMap((answers) => {
      const yes = values(
        items.filter((i) => answers[i]),
        left - 1,
      );
      const no = values(
        items.filter((i) => !answers[i]),
        left - 1,
      );
      return yes.length > 0 && no.length > 0 ? [Math.max(...yes) + Math.max(...no) - leafCost] : [];
    });
    return [...asLeaf, ...asBranch];
  };
  return Math.max(
    ...values(
      Array.from({ length: n }, (_, i) => i),
      depth,
    ),
  );
}
