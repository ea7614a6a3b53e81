import type { Definition, DefinitionClass, DefinitionLine } from '../definition.ts';
import { all, any, type Formula, over } from '../formula.ts';
import { ANY_PURULENCE, FIVE_IN_FIVE, SINGLE_GROWTH, SINUS, TWO_WITH_SAME_ORGANISM } from './cultures.ts';

const CLASSES: readonly DefinitionClass[] = [
  { id: 'infected', label: 'Infected', standing: 'confirmed', rank: 1 },
  { id: 'not-met', label: 'Criteria not met', standing: 'excluded', rank: 0 },
  { id: 'not-assessed', label: 'Not assessed', standing: 'not-assessed', rank: 0 },
];

const minor = (id: string, label: string, when: Formula, more: Partial<DefinitionLine> = {}): DefinitionLine => ({
  id,
  block: 'Minor',
  label,
  when,
  met: { minor: 1 },
  known: { seen: 1 },
  ...more,
});

const definition = (serum: 'and' | 'or'): Definition => ({
  id: serum === 'and' ? 'msis-2011' : 'msis-2011-or',
  name: serum === 'and' ? 'MSIS 2011' : 'MSIS 2011, ESR or CRP',
  version: serum === 'and' ? '2011-and' : '2011-or',
  source: 'Parvizi, Clin Orthop Relat Res 2011;469:2992 and J Arthroplasty 2011;26:1136',
  trust: 'Criteria read in reprints, which disagree: one journal asks for ESR and CRP, the other for ESR or CRP.',
  tallies: { major: [0, 1], minor: [0, 6], seen: [0, 1] },
  lines: [
    {
      id: 'sinus',
      block: 'Major',
      label: 'Sinus tract that reaches the prosthesis',
      when: SINUS,
      met: { major: 1 },
      known: { seen: 1 },
    },
    {
      id: 'two-cultures',
      block: 'Major',
      label: 'Same organism in two separate samples',
      when: TWO_WITH_SAME_ORGANISM,
      met: { major: 1 },
      known: { seen: 1 },
    },
    minor(
      'serum',
      serum === 'and' ? 'ESR over 30 mm/h and CRP over 10 mg/L' : 'ESR over 30 mm/h or CRP over 10 mg/L',
      (serum === 'and' ? all : any)(over('esr', 30), over('crp', 10)),
    ),
    minor('wbc', 'Synovial white cells raised (3,000 /uL used here)', over('synovial-wbc', 3000), {
      note: 'The criterion names no number; 3,000 is the later consensus, the commentary of 2011 says 1,100 to 4,000.',
    }),
    minor('pmn', 'Synovial polymorphonuclear share raised (80 % used here)', over('synovial-pmn', 80), {
      note: 'The criterion names no number; 80 is the later consensus, the commentary of 2011 says 64 to 69.',
    }),
    minor('purulence', 'Purulence in the joint', ANY_PURULENCE),
    minor('one-culture', 'Organism in one culture', SINGLE_GROWTH, { yieldsTo: 'two-cultures' }),
    minor('histology', 'More than five neutrophils a field in five fields', FIVE_IN_FIVE),
  ],
  classes: CLASSES,
  rules: [
    { gives: 'infected', when: [{ sum: { major: 1 }, atLeast: 1 }] },
    { gives: 'infected', when: [{ sum: { minor: 1 }, atLeast: 4 }] },
    { gives: 'not-assessed', when: [{ sum: { seen: 1 }, below: 1 }] },
    { gives: 'not-met', when: [] },
  ],
  score: { label: 'minor criteria', sum: { minor: 1 }, max: 6 },
  madeFor: 'any',
  remark: 'Infection may be present with fewer than four minor criteria (remark of the source).',
});

export const MSIS_2011 = definition('and');
export const MSIS_2011_OR = definition('or');
