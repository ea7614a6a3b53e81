import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { choiceNames } from '@gapline/core/forecast/choices.ts';
import { partsOfEvent } from '@gapline/core/learning/kept-events.ts';

const FIELD_WORDS: Readonly<Record<string, string>> = {
  level: 'Constraint',
  femur: 'Femoral component',
  'distal-medial': 'Distal augment, medial',
  'distal-lateral': 'Distal augment, lateral',
  'posterior-medial': 'Posterior augment, medial',
  'posterior-lateral': 'Posterior augment, lateral',
  tray: 'Tray',
  'block-medial': 'Tibial block, medial',
  'block-lateral': 'Tibial block, lateral',
  insert: 'Insert',
  'femoral-stem': 'Femoral stem',
  'tibial-stem': 'Tibial stem',
  'femoral-offset': 'Femoral offset',
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

/** The value of an event in words: a part by its name, anything else as it is. */
export function valueWords(event: string, catalogue: Catalogue | null): string {
  const { value } = partsOfEvent(event);
  return (catalogue && choiceNames(catalogue).get(value)) ?? value;
}
