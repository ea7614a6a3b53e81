import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { choiceNames } from '@gapline/core/forecast/choices.ts';
import type { ComparedEvent } from '@gapline/core/learning/compare-found.ts';
import { partsOfEvent } from '@gapline/core/learning/kept-events.ts';
import { CHOICE_WORDS } from '../choice-words.ts';

const FIELD_WORDS: Readonly<Record<string, string>> = {
  ...CHOICE_WORDS,
  'femoral-zone-2': 'Femoral cone or sleeve',
  'tibial-zone-2': 'Tibial cone or sleeve',
  femurClass: 'Femur, class',
  tibiaClass: 'Tibia, class',
  mcl: 'Medial collateral',
  lcl: 'Lateral collateral',
  fracture: 'Fracture',
  infection: 'Infection',
  kit: 'Kit',
  'femurDistalMm.medial': 'Distal femur, medial',
  'femurDistalMm.lateral': 'Distal femur, lateral',
  'femurPosteriorMm.medial': 'Posterior femur, medial',
  'femurPosteriorMm.lateral': 'Posterior femur, lateral',
  'tibiaMm.medial': 'Tibia, medial',
  'tibiaMm.lateral': 'Tibia, lateral',
};

/** A field of a forecast in words. */
export const fieldWords = (field: string): string => FIELD_WORDS[field] ?? field;

/** What came in one field, and the share that was forecast for it. */
export interface Came {
  readonly field: string;
  /** Value of the event that came; null = something that the forecast does not name. */
  readonly value: string | null;
  readonly share: number;
}

/** Events of which only the coming is kept; their not coming has the rest of the share. */
const NOT_COMING: Readonly<Record<string, string>> = { yes: 'no', sufficed: 'something was missing' };

/** One line a field, in the order of the forecast. */
export function whatCame(events: readonly ComparedEvent[]): readonly Came[] {
  const fields = [...new Set(events.map((e) => partsOfEvent(e.event).field))];
  return fields.map((field) => {
    const own = events.filter((e) => partsOfEvent(e.event).field === field);
    const came = own.find((e) => e.happened);
    if (came) return { field, value: partsOfEvent(came.event).value, share: came.share };
    const [only] = own;
    const instead = only && own.length === 1 ? NOT_COMING[partsOfEvent(only.event).value] : undefined;
    return instead && only ? { field, value: instead, share: 1 - only.share } : { field, value: null, share: 0 };
  });
}

/** What came in words: a part by its name, anything else as it is. */
export function cameWords({ value }: Came, catalogue: Catalogue | null): string {
  if (value === null) return 'something that was not forecast';
  return (catalogue && choiceNames(catalogue).get(value)) ?? value;
}
