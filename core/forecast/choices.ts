import { type Catalogue, CONSTRAINT_LEVELS } from '../catalogue/catalogue.ts';
import { everyPart } from '../catalogue/every-part.ts';
import { levelInSentence } from '../constraint/level-words.ts';
import type { Construct } from '../gaps/construct.ts';
import { FORECAST_CHOICES, type ForecastChoice } from './forecast-types.ts';

/** What stands for a choice of no part. */
export const NO_PART = 'none';

const CHOSEN: Readonly<Record<ForecastChoice, (c: Construct) => string | null | undefined>> = {
  level: (c) => c.level,
  femur: (c) => c.femur,
  'distal-medial': (c) => c.distalAugments.medial,
  'distal-lateral': (c) => c.distalAugments.lateral,
  'posterior-medial': (c) => c.posteriorAugments.medial,
  'posterior-lateral': (c) => c.posteriorAugments.lateral,
  tray: (c) => c.tray,
  'block-medial': (c) => c.tibialAugments.medial,
  'block-lateral': (c) => c.tibialAugments.lateral,
  insert: (c) => c.insert,
  'femoral-stem': (c) => c.femoralStem,
  'tibial-stem': (c) => c.tibialStem,
  'femoral-offset': (c) => c.femoralOffset,
  'tibial-offset': (c) => c.tibialOffset,
  'femoral-zone-2': (c) => c.femoralCone ?? c.femoralSleeve,
  'tibial-zone-2': (c) => c.tibialCone ?? c.tibialSleeve,
};

/** What a construct takes for one choice: a catalogue ref, a constraint level, or `none`. */
export const choiceOf = (construct: Construct, choice: ForecastChoice): string => CHOSEN[choice](construct) ?? NO_PART;

/** Names of every part of a catalogue by ref, and of the constraint levels. */
export function choiceNames(catalogue: Catalogue): ReadonlyMap<string, string> {
  const parts = everyPart(catalogue).map(({ ref, name }): [string, string] => [ref, name]);
  const levels = CONSTRAINT_LEVELS.map((level): [string, string] => [level, levelInSentence(level)]);
  return new Map<string, string>([...levels, ...parts, [NO_PART, 'none']]);
}

/**
 * How often each choice comes out among the constructs of all draws, null = a draw without one (FOR-9). For each choice
 * the shares of its values add up, with the share of draws without a construct, to 1. Most frequent first; equal
 * shares in alphabetical order of their refs.
 */
export function choiceShares(constructs: readonly (Construct | null)[], names: ReadonlyMap<string, string>) {
  return FORECAST_CHOICES.flatMap((choice) => {
    const counts = new Map<string, number>();
    for (const construct of constructs) {
      if (!construct) continue;
      const value = choiceOf(construct, choice);
      counts.set(value, (counts.get(value) ?? 0) + 1);
    }
    return [...counts]
      .sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
      .map(([value, n]) => ({ choice, value, label: names.get(value) ?? value, share: n / constructs.length }));
  });
}
