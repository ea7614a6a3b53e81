import { dice } from '../../gaps/judge/random-cases.ts';
import type { CoverGroup } from '../cover/cover.ts';
import { maskOfAll } from '../set-mask.ts';

export interface ChoiceSize {
  readonly sets: number;
  readonly groups: number;
  /** Options of a group, and sets of an option, at most; at least one of each, or as many options as is said. */
  readonly options: number;
  readonly leastOptions?: number;
  readonly most: number;
}

/** A random choice of sets without any structure, from a seed: the hardest kind. */
export function randomChoice(seed: number, size: ChoiceSize): { costs: number[]; groups: CoverGroup[] } {
  const { unit, pick } = dice(seed);
  const some = (most: number) => 1 + Math.floor(unit() * most);
  const least = size.leastOptions ?? 1;
  const costs = Array.from({ length: size.sets }, () => some(9));
  const places = costs.map((_, i) => i);
  const option = () => {
    const wanted = Math.min(size.sets, some(size.most));
    const sets = new Set<number>();
    while (sets.size < wanted) sets.add(pick(places));
    return maskOfAll(sets);
  };
  const groups = Array.from({ length: size.groups }, () => ({
    weight: some(4),
    options: Array.from({ length: least - 1 + some(size.options - least + 1) }, option),
  }));
  return { costs, groups };
}
