import type { DrawnKnee } from '../forecast/drawn-knee.ts';
import { leastOptions } from './cover/reduce.ts';
import type { KitSet, SetService } from './set-list.ts';
import { maskOf, NO_SETS, type SetMask, union } from './set-mask.ts';

/** What a knee needs from the sets. */
export interface KneeNeeds {
  /** False: no construct goes in, because of an infection. */
  readonly construct: boolean;
  readonly services: readonly SetService[];
}

/**
 * What a drawn knee needs (KIT-4): a construct, or a spacer where an infection is found that nobody expected; fixation
 * besides where the bone broke; and whatever every knee needs.
 */
export function needsOf({ infection, fracture }: DrawnKnee, always: readonly SetService[]): KneeNeeds {
  return {
    construct: !infection,
    services: [
      ...always,
      ...(infection ? (['spacer'] as const) : []),
      ...(fracture ? (['fracture-fixation'] as const) : []),
    ],
  };
}

/** Least combinations of sets that give every service; none where no set gives one of them. */
export function setsForServices(services: readonly SetService[], sets: readonly KitSet[]): readonly SetMask[] {
  return services.reduce<readonly SetMask[]>(
    (options, service) =>
      leastOptions(
        options.flatMap((option) =>
          sets.flatMap((set, i) => (set.services?.includes(service) ? [union(option, maskOf(i))] : [])),
        ),
      ),
    [NO_SETS],
  );
}

export const SERVICE_IN_WORDS: Readonly<Record<SetService, string>> = {
  'fracture-fixation': 'fixation for a fracture',
  spacer: 'a spacer',
  extraction: 'instruments for removal',
  graft: 'bone graft',
  'extensor-mechanism': 'reconstruction of the extensor mechanism',
};
