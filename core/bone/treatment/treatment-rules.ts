import {
  all,
  any,
  type Condition,
  classIs,
  containmentIs,
  deep,
  demandIs,
  isTrue,
  not,
  qualityIs,
  shallow,
  supported,
  unsupported,
  young,
} from './defect-facts.ts';
import type { TreatmentId } from './options.ts';

/** What a rule does where it holds. A note says something and changes nothing. */
export type Effect = 'offer' | 'advise-against' | 'refuse' | 'note';

export interface Act {
  readonly effect: Effect;
  readonly when: Condition;
}

const act =
  (effect: Effect) =>
  (when: Condition): Act => ({ effect, when });
const offer = act('offer');
const against = act('advise-against');
const refuse = act('refuse');
const note = act('note');

export interface TreatmentRule {
  /** Number in docs/rules/treatment.md. */
  readonly id: string;
  readonly treatments: readonly TreatmentId[];
  /** What it does, and where. */
  readonly acts: readonly Act[];
  readonly text: string;
  readonly source: string;
  /** A meta-analysis, B series or laboratory, C consensus or textbook, D planning default of this project. */
  readonly grade: 'A' | 'B' | 'C' | 'D';
}

/** Depth in mm beyond which no block is built, and beyond which it is advised against (TRE-7, TRE-8). */
export const BLOCK_REFUSED_OVER_MM = 20;
export const BLOCK_WARNED_OVER_MM = 15;
export const DOUBLE_BLOCK_OVER_MM = 10;

const ROSSO = 'Rosso 2019, table 2';
const wantsRebuilding = any(deep(5), unsupported(40));
const graftable = all(classIs('2A', '2B', '3'), wantsRebuilding);

/** Every rule for treatment by defect, as data (docs/rules/treatment.md). Order: that of the file. */
export const TREATMENT_RULES: readonly TreatmentRule[] = [
  {
    id: 'TRE-1',
    treatments: ['cement', 'morselised-graft'],
    acts: [offer(all(classIs('1'), shallow(5), supported(50)))],
    text: 'Type 1, at most 5 mm deep and under half of the surface: cement or morselised graft.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-2',
    treatments: ['cement-screws', 'morselised-graft'],
    acts: [offer(all(classIs('1'), deep(5, 10)))],
    text: 'Type 1, 5 to 10 mm deep: cement and screws, or morselised graft.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-3',
    treatments: ['cement-screws'],
    acts: [
      offer(all(classIs('2A'), deep(5, 10), demandIs('low'))),
      against(all(classIs('2A'), deep(5, 10), demandIs('high'))),
    ],
    text: 'Type 2A, 5 to 10 mm deep: cement and screws only where little is asked of the knee.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-4',
    treatments: ['cement', 'morselised-graft'],
    acts: [offer(all(classIs('2A'), shallow(5), not(unsupported(40))))],
    text: 'Type 2A that is at most 5 mm deep and 40 % unsupported: as type 1; class and size disagree, look at both.',
    source: 'planning default of this project',
    grade: 'D',
  },
  {
    id: 'TRE-5',
    treatments: ['cement', 'cement-screws', 'morselised-graft'],
    acts: [against(deep(10))],
    text: 'Deeper than 10 mm: neither cement, with or without screws, nor loose graft alone.',
    source: `${ROSSO}, where they end at 10 mm`,
    grade: 'C',
  },
  {
    id: 'TRE-6',
    treatments: ['block-augment'],
    acts: [offer(graftable)],
    text: 'Type 2 or 3, deeper than 5 mm or more than 40 % unsupported: block augment, and a stem with it.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-7',
    treatments: ['block-augment'],
    acts: [refuse(deep(BLOCK_REFUSED_OVER_MM))],
    text: 'Deeper than 20 mm: no block; cone, sleeve or graft instead.',
    source: 'Kang 2019 (J Clin Med 8:384, finite elements: acceptable up to 20 mm)',
    grade: 'B',
  },
  {
    id: 'TRE-8',
    treatments: ['block-augment'],
    acts: [against(deep(BLOCK_WARNED_OVER_MM, BLOCK_REFUSED_OVER_MM))],
    text: 'Deeper than 15 mm: a block still carries, but consider cone, sleeve or graft.',
    source: 'planning default of this project, under the 20 mm of Kang 2019',
    grade: 'D',
  },
  {
    id: 'TRE-9',
    treatments: ['block-augment'],
    acts: [note(deep(DOUBLE_BLOCK_OVER_MM, BLOCK_REFUSED_OVER_MM))],
    text: 'Deeper than 10 mm: two blocks rather than one; cement is stressed 1.4 times as much over a single block.',
    source: 'Kang 2019 (J Clin Med 8:384, finite elements)',
    grade: 'B',
  },
  {
    id: 'TRE-10',
    treatments: ['structural-graft', 'impaction-graft'],
    acts: [offer(all(graftable, young)), against(all(graftable, not(young)))],
    text: 'Type 2 or 3, deeper than 5 mm or more than 40 % unsupported, in the young (here: under 65): structural or impaction graft with a stem.',
    source: `${ROSSO}; the age is a planning default, grade D`,
    grade: 'C',
  },
  {
    id: 'TRE-11',
    treatments: ['structural-graft'],
    acts: [note(any(deep(15), containmentIs('uncontained')))],
    text: 'Deeper than 15 to 20 mm, or open where no augment fits: the classic place of a structural graft; cones and sleeves have mostly taken it.',
    source: 'from memory',
    grade: 'D',
  },
  {
    id: 'TRE-12',
    treatments: ['impaction-graft', 'morselised-graft'],
    acts: [note(containmentIs('uncontained'))],
    text: 'Open defect: graft needs mesh or a rebuilt rim; both femoral condyles need a joined stem.',
    source: 'common practice, no source; stem: Acta Orthop 2010; 81:337 (laboratory)',
    grade: 'C',
  },
  {
    id: 'TRE-13',
    treatments: ['cone', 'sleeve'],
    acts: [offer(classIs('2B', '3'))],
    text: 'Type 2B or 3: cone or sleeve with a short or medium stem.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-14',
    treatments: ['cone', 'sleeve'],
    acts: [offer(all(classIs('2A', '2B', '3'), qualityIs('sclerotic', 'osteoporotic')))],
    text: 'Type 2 or 3 in sclerotic or osteoporotic bone: hold in the metaphysis too, with cone or sleeve.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-15',
    treatments: ['cone'],
    acts: [offer(all(classIs('1'), qualityIs('sclerotic')))],
    text: 'Type 1 in very sclerotic bone: consider a small cone, with a stem; it costs bone.',
    source: ROSSO,
    grade: 'C',
  },
  {
    id: 'TRE-16',
    treatments: ['segmental'],
    acts: [
      offer(all(classIs('3'), any(isTrue('attachmentLost'), isTrue('failedBefore')), demandIs('low'))),
      against(all(classIs('3'), demandIs('high'))),
    ],
    text: 'Type 3 with attachments lost or after failed reconstruction, where little is asked of the knee: segmental component. To be confirmed by the surgeon.',
    source: 'Adv Orthop 2011, 578952; CORR 2009, PMC2628491',
    grade: 'C',
  },
  {
    id: 'TRE-17',
    treatments: ['custom'],
    acts: [offer(all(classIs('3'), isTrue('failedBefore')))],
    text: 'Type 3 after failed reconstruction: custom component as the last resort; ordered ahead, nothing can change late.',
    source: 'J Pers Med 2023; 13:1043 (proof of concept)',
    grade: 'D',
  },
  {
    id: 'TRE-18',
    treatments: ['cone', 'sleeve'],
    acts: [note(young)],
    text: 'Young (here: under 65): another revision is likely; an ingrown cone or sleeve is hard to take out and costs bone.',
    source: 'Pasquier 2019 (OTSR); Scully 2021 (J Knee Surg 34:693)',
    grade: 'C',
  },
  {
    id: 'TRE-19',
    treatments: ['sleeve'],
    acts: [note(classIs('2A', '2B', '3'))],
    text: 'A sleeve is joined to its component: the canal dictates the rotation.',
    source: 'Salim 2019, review of cones and sleeves',
    grade: 'C',
  },
];
