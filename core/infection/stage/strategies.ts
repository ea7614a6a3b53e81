import type { Known } from '../../measure/known.ts';

/** A fact on which the choice of treatment turns. */
export const STAGE_FACTS = [
  { id: 'symptoms-under-3-weeks', label: 'Symptoms for less than three weeks' },
  { id: 'joint-under-30-days', label: 'Joint younger than 30 days' },
  { id: 'implant-well-fixed', label: 'Implant well fixed' },
  { id: 'sinus', label: 'Sinus tract' },
  { id: 'organism-known', label: 'Organism and sensitivities known before surgery' },
  { id: 'biofilm-active-agent', label: 'Sensitive to an oral agent that works in biofilm' },
  { id: 'difficult-organism', label: 'Resistant, mixed or fungal infection' },
  { id: 'soft-tissue-adequate', label: 'Soft tissue adequate for closure' },
  { id: 'needs-flap', label: 'Soft tissue needs a flap' },
  { id: 'sepsis', label: 'Systemic sepsis' },
  { id: 'bone-reconstructable', label: 'Bone can be reconstructed' },
  { id: 'ligaments-or-extensor-lost', label: 'Both collaterals or the extensor mechanism lost' },
  { id: 'host-c', label: 'Host grade C' },
  { id: 'failed-one-stage', label: 'An exchange in one stage has failed' },
  { id: 'failed-repeat-exchange', label: 'Repeated exchange has failed' },
  { id: 'fit-for-two-operations', label: 'Fit for two operations or more' },
  { id: 'fit-for-surgery', label: 'Fit for surgery, and wants it' },
  { id: 'oral-agent', label: 'An oral agent for long-term use exists' },
  { id: 'walks', label: 'Walks' },
] as const;

export type StageFactId = (typeof STAGE_FACTS)[number]['id'];
export type StageFacts = Readonly<Partial<Record<StageFactId, Known>>>;

interface Wanted {
  readonly fact: StageFactId;
  readonly is: 'yes' | 'no';
}

export interface Strategy {
  readonly id: string;
  readonly label: string;
  /** All of these; a list inside means any one of them. */
  readonly criteria: readonly (Wanted | readonly Wanted[])[];
  readonly results: readonly { readonly text: string; readonly n: string; readonly source: string }[];
  readonly source: string;
}

const yes = (fact: StageFactId): Wanted => ({ fact, is: 'yes' });
const no = (fact: StageFactId): Wanted => ({ fact, is: 'no' });

/** STAGE-4: strategies with their published criteria and results. The table lists; the team decides. */
export const STRATEGIES: readonly Strategy[] = [
  {
    id: 'debridement-with-retention',
    label: 'Debridement, antibiotics, implant retained',
    criteria: [
      [yes('symptoms-under-3-weeks'), yes('joint-under-30-days')],
      yes('implant-well-fixed'),
      no('sinus'),
      yes('biofilm-active-agent'),
      yes('soft-tissue-adequate'),
    ],
    results: [
      {
        text: 'Success 67 % (63-70), knees 63 % (58-69)',
        n: '65 studies, 6,630',
        source: 'Meta-analysis of debridement with retention',
      },
      { text: 'After a revision: 50-70 %; repeated: about 50 %', n: '7 studies', source: 'Systematic review' },
      { text: 'At least 12 weeks of antibiotics', n: '', source: 'International consensus 2025' },
    ],
    source: 'IDSA 2013 after Zimmerli (from memory)',
  },
  {
    id: 'one-stage',
    label: 'Exchange in one stage',
    criteria: [
      yes('organism-known'),
      no('difficult-organism'),
      yes('soft-tissue-adequate'),
      no('sepsis'),
      yes('bone-reconstructable'),
      no('ligaments-or-extensor-lost'),
      no('host-c'),
    ],
    results: [
      { text: 'Re-infection 7.6 % (3.4-13.1)', n: '10 studies, 423', source: 'Kunutsor 2016 (percent from memory)' },
      { text: 'Re-infection 12.7 % (7.0-19.7)', n: '527', source: 'Review of 2015-2020' },
      {
        text: 'Re-revision for infection against two stages: hazard ratio 0.99 (0.70-1.39)',
        n: '489 against 2,377',
        source: 'Registry of England and Wales 2003-14',
      },
    ],
    source: 'Expert criteria (from memory)',
  },
  {
    id: 'two-stages',
    label: 'Exchange in two stages',
    criteria: [
      [yes('sepsis'), no('organism-known'), yes('difficult-organism'), yes('needs-flap'), yes('failed-one-stage')],
      yes('fit-for-two-operations'),
    ],
    results: [
      { text: 'Re-infection 8.8 % (7.2-10.6)', n: '108 studies, 5,129', source: 'Kunutsor 2016 (from memory)' },
      { text: 'Re-infection 16.2 % (13.7-19.0)', n: '4,344', source: 'Review of 2015-2020' },
      { text: 'Never reimplanted: about 17 %', n: '504', source: 'Gomez 2015 (from memory)' },
    ],
    source: 'Expert criteria (from memory)',
  },
  {
    id: 'suppression',
    label: 'Long-term suppression with antibiotics',
    criteria: [no('fit-for-surgery'), yes('implant-well-fixed'), yes('oral-agent')],
    results: [
      {
        text: 'Success against none: odds ratio 1.3 (0.6-3.1), unproven',
        n: 'pooled',
        source: 'Review of suppression',
      },
    ],
    source: 'Expert criteria (from memory)',
  },
  {
    id: 'fusion-or-amputation',
    label: 'Fusion or amputation',
    criteria: [[yes('failed-repeat-exchange'), yes('ligaments-or-extensor-lost')], no('bone-reconstructable')],
    results: [
      {
        text: 'No significant difference in eradication or quality of life between the two; after amputation less pain, higher five-year mortality',
        n: '14 studies',
        source: 'Review',
      },
      { text: 'Fusion: 37 % complications needing revision, 10 % amputation', n: '41', source: 'Single series' },
    ],
    source: 'Expert criteria (from memory)',
  },
  {
    id: 'resection',
    label: 'Resection without reimplantation',
    criteria: [no('walks'), no('fit-for-two-operations')],
    results: [],
    source: 'Expert criteria (from memory)',
  },
];

export type CriterionStanding = 'met' | 'not-met' | 'not-known';

export interface StrategyReading {
  readonly id: string;
  readonly label: string;
  readonly criteria: readonly { readonly text: string; readonly standing: CriterionStanding }[];
  readonly overall: CriterionStanding;
}

const label = (w: Wanted): string =>
  `${w.is === 'no' ? 'Not: ' : ''}${STAGE_FACTS.find((f) => f.id === w.fact)?.label ?? w.fact}`;

function standing(w: Wanted, facts: StageFacts): CriterionStanding {
  const known = facts[w.fact] ?? 'unknown';
  return known === 'unknown' ? 'not-known' : known === w.is ? 'met' : 'not-met';
}

const isAny = (c: Wanted | readonly Wanted[]): c is readonly Wanted[] => Array.isArray(c);

/** Three-valued: any met = met; all not met = not met; else not known. */
const anyOf = (s: readonly CriterionStanding[]): CriterionStanding =>
  s.includes('met') ? 'met' : s.every((x) => x === 'not-met') ? 'not-met' : 'not-known';

/** Three-valued: any not met = not met; all met = met; else not known. */
const allOf = (s: readonly CriterionStanding[]): CriterionStanding =>
  s.includes('not-met') ? 'not-met' : s.every((x) => x === 'met') ? 'met' : 'not-known';

/** STAGE-4: each strategy with its criteria met, not met or not known; no ranking. */
export function readStrategies(facts: StageFacts): readonly StrategyReading[] {
  return STRATEGIES.map((s) => {
    const criteria = s.criteria.map((c) =>
      isAny(c)
        ? { text: c.map(label).join('; or: '), standing: anyOf(c.map((w) => standing(w, facts))) }
        : { text: label(c), standing: standing(c, facts) },
    );
    return { id: s.id, label: s.label, criteria, overall: allOf(criteria.map((c) => c.standing)) };
  });
}
