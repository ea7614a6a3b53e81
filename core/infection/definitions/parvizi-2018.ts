import type { Definition, DefinitionLine } from '../definition.ts';
import { any, type Formula, over } from '../formula.ts';
import {
  ANY_PURULENCE,
  DEFENSIN,
  FIVE_IN_FIVE,
  SINGLE_GROWTH,
  SINUS,
  STRIP,
  TWO_WITH_SAME_ORGANISM,
} from './cultures.ts';

const major = (id: string, label: string, when: Formula): DefinitionLine => ({
  id,
  block: 'Major',
  label,
  when,
  met: { major: 1 },
  known: { seen: 1 },
});

const serum = (id: string, label: string, line: Pick<DefinitionLine, 'when' | 'parts'> & { points: number }) =>
  ({
    id,
    block: 'Serum',
    label,
    when: line.when,
    ...(line.parts ? { parts: line.parts } : {}),
    met: { before: line.points },
    known: { seen: 1 },
  }) satisfies DefinitionLine;

const fluid = (id: string, label: string, line: Pick<DefinitionLine, 'when' | 'parts'> & { points: number }) =>
  ({ ...serum(id, label, line), block: 'Synovial', known: { seen: 1, fluid: 1 } }) satisfies DefinitionLine;

const during = (id: string, label: string, line: Pick<DefinitionLine, 'when' | 'yieldsTo'> & { points: number }) =>
  ({
    id,
    block: 'At operation',
    label,
    when: line.when,
    ...(line.yieldsTo ? { yieldsTo: line.yieldsTo } : {}),
    met: { during: line.points },
    known: { seen: 1, opened: 1 },
  }) satisfies DefinitionLine;

export const PARVIZI_2018: Definition = {
  id: 'parvizi-2018',
  name: '2018 definition',
  version: '2018-03',
  source: 'Parvizi, J Arthroplasty 2018;33:1309',
  trust: 'Points and bands read in two reprints; the limits are from memory, three of them read elsewhere.',
  tallies: { major: [0, 1], before: [0, 12], during: [0, 8], fluid: [0, 1], opened: [0, 3], seen: [0, 1] },
  lines: [
    major('two-cultures', 'Two cultures with the same organism', TWO_WITH_SAME_ORGANISM),
    major('sinus', 'Sinus tract to the joint, or prosthesis seen', SINUS),
    serum('crp-d-dimer', 'CRP or D-dimer', {
      points: 2,
      when: any(over('crp', 10), over('d-dimer', 860)),
      parts: [
        { label: 'CRP over 10 mg/L', when: over('crp', 10) },
        { label: 'D-dimer over 860 ng/mL', when: over('d-dimer', 860) },
      ],
    }),
    serum('esr', 'ESR over 30 mm/h', { points: 1, when: over('esr', 30) }),
    fluid('wbc-strip', 'White cells or strip', {
      points: 3,
      when: any(over('synovial-wbc', 3000), STRIP),
      parts: [
        { label: 'White cells over 3,000 /uL', when: over('synovial-wbc', 3000) },
        { label: 'Leukocyte esterase ++', when: STRIP },
      ],
    }),
    fluid('alpha-defensin', 'Alpha-defensin positive', { points: 3, when: DEFENSIN }),
    fluid('pmn', 'Polymorphonuclear share over 80 %', { points: 2, when: over('synovial-pmn', 80) }),
    fluid('synovial-crp', 'Synovial CRP over 6.9 mg/L', { points: 1, when: over('synovial-crp', 6.9) }),
    during('histology', 'More than five neutrophils a field in five fields', { points: 3, when: FIVE_IN_FIVE }),
    during('purulence', 'Purulence', { points: 3, when: ANY_PURULENCE }),
    during('one-culture', 'A single positive culture', { points: 2, when: SINGLE_GROWTH, yieldsTo: 'two-cultures' }),
  ],
  classes: [
    { id: 'infected', label: 'Infected', standing: 'confirmed', rank: 3 },
    { id: 'inconclusive', label: 'Inconclusive', standing: 'open', rank: 2 },
    { id: 'possibly', label: 'Possibly infected', standing: 'open', rank: 2 },
    { id: 'not-infected', label: 'Not infected', standing: 'excluded', rank: 0 },
    { id: 'no-fluid', label: 'Not classifiable: no synovial result', standing: 'not-classifiable', rank: 0 },
    { id: 'not-assessed', label: 'Not assessed', standing: 'not-assessed', rank: 0 },
  ],
  // INF-5: the bands after operation can lower a class only once all three of its lines are known.
  rules: [
    { gives: 'infected', when: [{ sum: { major: 1 }, atLeast: 1 }] },
    { gives: 'infected', when: [{ sum: { before: 1, during: 1 }, atLeast: 6 }] },
    {
      gives: 'inconclusive',
      when: [
        { sum: { opened: 1 }, atLeast: 1 },
        { sum: { before: 1, during: 1 }, atLeast: 4 },
        { sum: { during: 1 }, atLeast: 1 },
      ],
    },
    {
      gives: 'inconclusive',
      when: [
        { sum: { opened: 1 }, atLeast: 3 },
        { sum: { before: 1, during: 1 }, atLeast: 4 },
      ],
    },
    { gives: 'not-infected', when: [{ sum: { opened: 1 }, atLeast: 3 }] },
    { gives: 'possibly', when: [{ sum: { before: 1 }, atLeast: 2 }] },
    { gives: 'not-assessed', when: [{ sum: { seen: 1 }, below: 1 }] },
    { gives: 'no-fluid', when: [{ sum: { fluid: 1 }, below: 1 }] },
    { gives: 'not-infected', when: [] },
  ],
  score: { label: 'points', sum: { before: 1, during: 1 }, max: 20 },
  madeFor: 'chronic',
  remark: 'Derived for chronic infection; caution with metal reaction, crystals and slow organisms (its own remark).',
};
