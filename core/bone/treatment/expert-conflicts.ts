import type { TreatmentId } from './options.ts';

/** A question that experts answer differently. Shown as such, decided by the surgeon. */
export interface ExpertConflict {
  readonly id: string;
  readonly question: string;
  readonly one: string;
  readonly other: string;
  readonly source: string;
  readonly bearsOn: readonly TreatmentId[];
}

export const EXPERT_CONFLICTS: readonly ExpertConflict[] = [
  {
    id: 'type-3',
    question: 'What makes a defect type 3',
    one: 'Attachments may be lost (originator of the classes): here loss is enough and not needed.',
    other: 'Attachments are lost by definition (secondary sources).',
    source: 'Engh; restatements',
    bearsOn: ['segmental', 'custom'],
  },
  {
    id: 'type-1',
    question: 'How deep a type 1 defect may be',
    one: 'Under 10 mm with an intact metaphysis (common practice).',
    other: 'Over 5 mm or 40 % wants rebuilding (treatment algorithm).',
    source: 'common practice, no source; Rosso 2019',
    bearsOn: ['cement-screws', 'morselised-graft', 'block-augment'],
  },
  {
    id: 'containment',
    question: 'Whether containment belongs to the class',
    one: 'Left out on purpose: the metaphysis has little true cortex.',
    other: 'The main axis of several other classifications.',
    source: 'Engh; Rand 1991, Huff and Sculco 2007',
    bearsOn: ['morselised-graft', 'impaction-graft', 'structural-graft'],
  },
  {
    id: 'cone-or-sleeve',
    question: 'Cone or sleeve',
    one: 'Sleeves: fewer loosenings (0.4 against 4.1 %) and infections (4.9 against 11.7 %).',
    other: 'Confounded: hinges are commoner with cones; p = 0.09 for loosening, 0.12 for any revision.',
    source: 'meta-analysis of cones and sleeves 2022 (KSSTA)',
    bearsOn: ['cone', 'sleeve'],
  },
  {
    id: 'stem-with-cone',
    question: 'Whether a cone needs a stem',
    one: 'Always.',
    other: 'It may do without in an uncontained tibial defect up to 10 mm (finite elements: under 12 µm of motion).',
    source: 'common practice; Bone Joint Res 2020, 10.1302/2046-3758.94.BJR-2019-0239.R1',
    bearsOn: ['cone'],
  },
  {
    id: 'stemless-sleeve',
    question: 'Whether a sleeve needs a stem',
    one: 'Yes, as every part in zone 2.',
    other: 'Sleeves without stem are described; with caution.',
    source: 'Rosso 2019; from memory',
    bearsOn: ['sleeve'],
  },
  {
    id: 'graft-or-cone',
    question: 'Structural graft or cone',
    one: 'No difference at five years or more (30 against 15 knees).',
    other: 'Grafts mostly given up for cones and sleeves.',
    source: 'Sandiford 2017 (CORR); reviews, from memory',
    bearsOn: ['structural-graft', 'cone'],
  },
  {
    id: 'cemented-or-hybrid',
    question: 'Cemented or hybrid stem',
    one: 'Hybrid better: odds ratio 0.61 (0.42 to 0.87) for failure of any cause.',
    other: 'No difference in two other meta-analyses (2015, 2024).',
    source: 'Sheridan 2020; Wang 2015, Thever 2024',
    bearsOn: ['block-augment', 'cone', 'sleeve'],
  },
];
