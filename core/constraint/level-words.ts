import type { ConstraintLevel } from '../catalogue/catalogue.ts';

/** The levels of constraint as one writes them. */
export const LEVEL_WORDS: Readonly<Record<ConstraintLevel, string>> = {
  ps: 'Posterior-stabilised',
  vvc: 'Varus-valgus constrained',
  hinge: 'Rotating hinge',
};

/** The same in the middle of a sentence. */
export const levelInSentence = (level: ConstraintLevel): string => LEVEL_WORDS[level].toLowerCase();
