import type { BailOut } from './forecast-types.ts';

/** One way through the tree, in words. */
export interface BailOutLine {
  /** "if the medial tibia is more than 12 mm below the joint line"; empty = always. */
  readonly when: string;
  /** "block 10 instead of 5 medially, tibial stem 100, same insert"; "as planned". */
  readonly doing: string;
  readonly share: number;
  /** Share of these knees in which that construct holds (FOR-10). */
  readonly pure: number;
}

export const AS_PLANNED = 'as planned';

/** How each question of FOR-11 reads when the answer is no. */
const OTHERWISE: readonly (readonly [RegExp, string])[] = [
  [/ is more than /, ' is not more than '],
  [/ should be more than /, ' need not be more than '],
  [/ is of class (\S+)( or worse)?$/, ' is of a class better than $1'],
  [/ is weak or gone$/, ' is neither weak nor gone'],
  [/ is gone$/, ' is there'],
  [/^infection is found$/, 'no infection is found'],
  [/ breaks at removal$/, ' does not break at removal'],
];

export function otherwise(question: string): string {
  const turn = OTHERWISE.find(([pattern]) => pattern.test(question));
  return turn ? question.replace(...turn) : `not: ${question}`;
}

function lines(tree: BailOut, asked: readonly string[]): readonly BailOutLine[] {
  if (tree.kind === 'do') {
    const when = asked.length === 0 ? '' : `if ${asked.join(' and ')}`;
    return [{ when, doing: tree.differs || AS_PLANNED, share: tree.share, pure: tree.pure }];
  }
  return [...lines(tree.yes, [...asked, tree.question]), ...lines(tree.no, [...asked, otherwise(tree.question)])];
}

/**
 * The tree of bail-outs as sentences, most frequent first; equal shares in the order of the tree. Shares 0 to 1 of all
 * knees. Example: "if the medial tibia is more than 12 mm below the joint line: block 10 instead of 5 medially".
 */
export const bailOutWords = (tree: BailOut): readonly BailOutLine[] =>
  [...lines(tree, [])].sort((a, b) => b.share - a.share);
